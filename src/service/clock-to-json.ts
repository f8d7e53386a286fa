import type { ClockJson, PrintTimeJson } from '../contract/index.ts'
import type { PrintTime } from '../print/index.ts'
import {
  type DryTimes,
  dryTimes,
  type Reached,
  reachedAt,
  type Timetable,
  type ToolVerdict,
} from '../verdict/index.ts'

/** A print's times, its printer's pace, and when it is started where that is told. */
export interface PrintTimes extends Timetable {
  readonly time: PrintTime
  /** Milliseconds since 1970. */
  readonly start?: number
}

const momentOf = (start: number, after_s: number | null): string | null =>
  after_s === null ? null : new Date(start + 1000 * Math.round(after_s)).toISOString()

const tenths = (seconds: number | null): number | null =>
  seconds === null ? null : Math.round(10 * seconds) / 10

/** Times of a place on the wire; as moments too, where the start is told. */
export const clockToJson = (
  { early_s, likely_s, late_s }: Reached | DryTimes,
  start: number | undefined,
): ClockJson => ({
  early_s: tenths(early_s),
  likely_s: tenths(likely_s),
  late_s: tenths(late_s),
  ...(start !== undefined && {
    early_at: momentOf(start, early_s),
    likely_at: momentOf(start, likely_s),
    late_at: momentOf(start, late_s),
  }),
})

/** How often a printer waits in a print, by kind. */
export const waitsByKind = ({ waits }: Pick<PrintTime, 'waits'>): Map<string, number> => {
  const byKind = new Map<string, number>()
  for (const { kind, times } of waits) byKind.set(kind, (byKind.get(kind) ?? 0) + times)
  return byKind
}

/** The time of a print on the wire. */
export const printTimeToJson = (times: PrintTimes): PrintTimeJson => {
  const { time, pace, start } = times
  return {
    planned_s: Math.round(10 * time.total_s) / 10,
    family: time.family,
    corner: time.corner,
    waits: [...waitsByKind(time)].map(([kind, count]) => ({ kind, times: count })),
    takes: clockToJson(reachedAt(times), start),
    timed_prints: pace.runs,
    ...(start !== undefined && { start_at: new Date(start).toISOString() }),
  }
}

/** When a reel runs dry, on the wire; null where nobody can tell. */
export const dryClock = (
  { runDry }: Pick<ToolVerdict, 'runDry'>,
  times: PrintTimes | undefined,
): ClockJson | null => {
  const found = times === undefined ? null : dryTimes(times, runDry)
  return found && clockToJson(found, times?.start)
}

/** When the last layer ends before which a change is safe, on the wire. */
export const changeClock = (
  { changeBefore }: Pick<ToolVerdict, 'changeBefore'>,
  times: PrintTimes | undefined,
): ClockJson | null => {
  const planned = changeBefore?.planned_s ?? null
  return planned === null || times === undefined
    ? null
    : clockToJson(reachedAt(times, planned), times.start)
}
