/** So long after a time of day has passed it still is that one, ms. */
const passed = 6 * 3_600_000

/**
 * The moment that a time of day means, by the clock of this machine: the last one, when it is no more than
 * six hours past, or else the next. In the small hours that may be yesterday's.
 *
 * @param now - ms since 1970
 * @returns ms since 1970
 */
export const timeOfDay = (hour: number, minute: number, now: number): number => {
  const on = (day: number): number => {
    const at = new Date(now)
    at.setDate(at.getDate() + day)
    return at.setHours(hour, minute, 0, 0)
  }
  if (now - on(-1) <= passed) return on(-1)
  return now - on(0) <= passed ? on(0) : on(1)
}
