/**
 * How long ago a moment was: `today`, `yesterday`, `12 days ago`, `5 months ago`, `2 years ago`.
 *
 * @param now - milliseconds since 1970
 */
export const formatAgo = (moment: string, now: number): string => {
  const days = Math.round((startOfDay(now) - startOfDay(Date.parse(moment))) / 86_400_000)
  if (days <= 0) return 'today'
  if (days === 1) return 'yesterday'
  if (days < 60) return `${days} days ago`
  const months = Math.round(days / 30.44)
  return months < 24 ? `${months} months ago` : `${Math.round(days / 365.25)} years ago`
}

const startOfDay = (at: number): number => new Date(at).setHours(0, 0, 0, 0)
