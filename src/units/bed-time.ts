/**
 * When people went to bed before a moment in their night, which is from half past eleven to half past six
 * by the clock of this machine: common practice, no source.
 *
 * @param at - ms since 1970
 * @returns ms since 1970; undefined of a moment in their day
 */
const bedBefore = (at: number): number | undefined => {
  const moment = new Date(at)
  const hour = moment.getHours() + moment.getMinutes() / 60
  if (hour >= 6.5 && hour < 23.5) return undefined
  if (hour < 6.5) moment.setDate(moment.getDate() - 1)
  return moment.setHours(23, 30, 0, 0)
}

/** A print asked about within this of its start may still be begun otherwise, ms. */
const begunBefore = 600_000

/** A place of a print at which its reel can be changed, s after the start. */
interface Changeable {
  readonly likely_s: number
  readonly late_s: number
}

/**
 * What to do where the last safe change comes at night: one that surely comes before bed, to begin the print
 * otherwise, or only to be up.
 *
 * @param likely_s - when the last safe change comes, s after the start
 * @param earlier - ascending
 * @param start - ms since 1970; `now` as well
 * @returns null where it comes by day
 */
export const changeAtNight = <T extends Changeable>(
  likely_s: number,
  earlier: readonly T[],
  start: number,
  now: number,
): T | 'begin otherwise' | 'be up' | null => {
  const at = (after_s: number): number => start + 1000 * after_s
  const bed = bedBefore(at(likely_s))
  if (bed === undefined) return null
  const evening = earlier.findLast((one) => at(one.late_s) <= bed && at(one.likely_s) >= now)
  if (evening !== undefined) return evening
  return start < now - begunBefore ? 'be up' : 'begin otherwise'
}
