import type { ClockJson, PrintTimeJson } from '../contract/index.ts'
import { takes } from '../estimate/index.ts'
import type { Layers, PrintTime } from '../print/index.ts'
import {
  type DryTimes,
  dryTimes,
  type Reached,
  reachedAt,
  type Timetable,
  type ToolVerdict,
} from '../verdict/index.ts'
import { heightsReached } from './heights-reached.ts'

/**
 * A print's times, its printer's pace, and when it is started where that is told; where the printer does
 * others first, when the first of them is.
 */
export interface PrintTimes extends Timetable {
  readonly time: PrintTime
  readonly layers?: Layers
  /** Milliseconds since 1970. */
  readonly start?: number
}

/** The same from the print's own start. */
export const fromItsStart = ({ time, pace, layers }: PrintTimes): PrintTimes => ({
  time,
  pace,
  ...(layers && { layers }),
})

/** When it is begun, where that is known, ms since 1970. */
export const beginOf = ({ start, pace, before }: PrintTimes): number | undefined =>
  start === undefined || before === undefined ? start : start + 1000 * takes(pace, before).value_s

const momentOf = (start: number, after_s: number | null): string | null =>
  after_s === null ? null : new Date(start + 1000 * Math.round(after_s)).toISOString()

const tenths = (seconds: number | null): number | null =>
  seconds === null ? null : Math.round(10 * seconds) / 10

/** Times on the wire, in seconds. */
export const secondsToJson = ({ early_s, likely_s, late_s }: Reached | DryTimes): ClockJson => ({
  early_s: tenths(early_s),
  likely_s: tenths(likely_s),
  late_s: tenths(late_s),
})

/**
 * Times of a place on the wire; as moments too, where the start is told.
 *
 * @param find - the place in a timetable; null where nobody can tell
 */
export const clockToJson = (
  times: PrintTimes,
  find: (table: PrintTimes) => Reached | DryTimes | null,
): ClockJson | null => {
  const own = find(fromItsStart(times))
  if (own === null) return null
  const seconds = secondsToJson(own)
  const { start } = times
  const then = start === undefined ? null : find(times)
  if (start === undefined || then === null) return seconds
  return {
    ...seconds,
    early_at: momentOf(start, then.early_s),
    likely_at: momentOf(start, then.likely_s),
    late_at: momentOf(start, then.late_s),
  }
}

/** How often a printer waits in a print, by kind. */
export const waitsByKind = ({ waits }: Pick<PrintTime, 'waits'>): Map<string, number> => {
  const byKind = new Map<string, number>()
  for (const { kind, times } of waits) byKind.set(kind, (byKind.get(kind) ?? 0) + times)
  return byKind
}

/** The time of a print on the wire. */
export const printTimeToJson = (times: PrintTimes): PrintTimeJson => {
  const { time, pace, layers } = times
  const begin = beginOf(times)
  return {
    planned_s: Math.round(10 * time.total_s) / 10,
    family: time.family,
    corner: time.corner,
    waits: [...waitsByKind(time)].map(([kind, count]) => ({ kind, times: count })),
    takes: clockToJson(times, (table) => reachedAt(table))!,
    along: heightsReached(fromItsStart(times), layers).map(({ height_mm, reached_s }) => ({
      height_mm: Math.round(100 * height_mm) / 100,
      reached_s: Math.round(reached_s),
    })),
    timed_prints: pace.runs,
    ...(begin !== undefined && { start_at: new Date(Math.round(begin)).toISOString() }),
  }
}

/** When a reel runs dry, on the wire; null where nobody can tell. */
export const dryClock = (
  { runDry }: Pick<ToolVerdict, 'runDry'>,
  times: PrintTimes | undefined,
): ClockJson | null => (times ? clockToJson(times, (table) => dryTimes(table, runDry)) : null)

/** When the last layer ends before which a change is safe, on the wire. */
export const changeClock = (
  { changeBefore }: Pick<ToolVerdict, 'changeBefore'>,
  times: PrintTimes | undefined,
): ClockJson | null => {
  const planned = changeBefore?.planned_s ?? null
  return planned === null || times === undefined
    ? null
    : clockToJson(times, (table) => reachedAt(table, planned))
}
