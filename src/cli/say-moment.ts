const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })

/** A moment of the ledger as a day by the clock of this machine: `18 Oct 2025`. */
export const sayDay = (moment: string): string => day.format(new Date(moment))

/** The same with the hour: `18 Oct 2025, 14:30`. */
export const sayMoment = (moment: string): string =>
  `${sayDay(moment)}, ${clock.format(new Date(moment))}`

/**
 * How long ago a moment was: `today`, `yesterday`, `12 days ago`, `5 months ago`, `2 years ago`.
 *
 * @param now - milliseconds since 1970
 */
export const sayAgo = (moment: string, now: number): string => {
  const days = Math.round((startOfDay(now) - startOfDay(Date.parse(moment))) / 86_400_000)
  if (days <= 0) return 'today'
  if (days === 1) return 'yesterday'
  if (days < 60) return `${days} days ago`
  const months = Math.round(days / 30.44)
  return months < 24 ? `${months} months ago` : `${Math.round(days / 365.25)} years ago`
}

const startOfDay = (at: number): number => new Date(at).setHours(0, 0, 0, 0)
