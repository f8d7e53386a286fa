import { type Pace, type PlannedRun, runInTurn, type Taking, takes } from '../estimate/index.ts'
import type { PrintTime } from '../print/index.ts'
import type { RunDry } from './run-dry.ts'

/** The time along a print as it is planned, and how the printer keeps to it. */
export interface Timetable {
  readonly time: Pick<PrintTime, 'total_s' | 'waits'>
  readonly pace: Pace
  /** What the printer does first, from the same start on; nothing unless given. */
  readonly before?: PlannedRun
}

/** When a place of the print is reached, s after the start: 9 of 10 lie between early and late. */
export interface Reached {
  readonly early_s: number
  readonly likely_s: number
  readonly late_s: number
}

/** When the reel runs dry; null where it lasts past the end, as in `RunDry`. */
export interface DryTimes {
  readonly early_s: number | null
  readonly likely_s: number | null
  readonly late_s: number | null
}

/**
 * When the print comes to a place.
 *
 * @param planned_s - planned time of the place; the whole print's end unless given
 */
export const reachedAt = (table: Timetable, planned_s: number = table.time.total_s): Reached => {
  const { early_s, value_s, late_s } = takingTo(table, planned_s)
  return { early_s, likely_s: value_s, late_s }
}

const takingTo = ({ time, pace, before }: Timetable, planned_s: number): Taking => {
  const run = { planned_s, waits: time.waits.filter(({ at_s }) => at_s <= planned_s) }
  return takes(pace, before === undefined ? run : runInTurn([before, run]))
}

/**
 * When the reel runs dry: the doubt about the place and that about the time together.
 *
 * Early and late lie off the likeliest time by the root of the sum of squares of both distances, which
 * is right where both are normal and either is small; without a likeliest place, by the time's alone.
 *
 * @returns null where the print's times are not known
 */
export const dryTimes = (table: Timetable, { early, likely, late }: RunDry): DryTimes | null => {
  if (early === null || early.planned_s === null) return null
  const first = takingTo(table, early.planned_s)
  if (likely === null || likely.planned_s === null) {
    return { early_s: first.early_s, likely_s: null, late_s: null }
  }
  const middle = takingTo(table, likely.planned_s)
  const before = Math.hypot(middle.value_s - first.value_s, middle.value_s - middle.early_s)
  const last = late === null || late.planned_s === null ? null : takingTo(table, late.planned_s)
  const behind =
    last === null ? null : Math.hypot(last.value_s - middle.value_s, middle.late_s - middle.value_s)
  return {
    early_s: Math.max(0, middle.value_s - before),
    likely_s: middle.value_s,
    late_s: behind === null ? null : middle.value_s + behind,
  }
}
