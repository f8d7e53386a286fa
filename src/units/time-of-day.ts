/** So long after a time of day has passed it still is that of today, ms. */
const passed = 6 * 3_600_000

/**
 * The moment that a time of day means, by the clock of this machine: today's, or tomorrow's when today's
 * is more than six hours past.
 *
 * @param now - ms since 1970
 * @returns ms since 1970
 */
export const timeOfDay = (hour: number, minute: number, now: number): number => {
  const at = new Date(now)
  at.setHours(hour, minute, 0, 0)
  if (now - at.getTime() > passed) at.setDate(at.getDate() + 1)
  return at.getTime()
}
