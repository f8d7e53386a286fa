import type { CheckJson, ClockJson, RunningToldJson } from '../../contract/index.ts'
import { changeAtNight, formatBetween, formatDuration, formatWhen } from '../../units/index.ts'
import { showHeight, whole } from './show-figure.ts'

/** Standard uncertainty of a time, s: one for each, so that it is told alike wherever it stands. */
export const doubtOf = ({ early_s, likely_s, late_s }: ClockJson): number => {
  if (early_s !== null && late_s !== null) return (late_s - early_s) / 3.3
  if (early_s !== null && likely_s !== null) return (likely_s - early_s) / 1.65
  return 0.1 * (likely_s ?? early_s ?? 0)
}

/** `from 13:50 on, most likely at about 14:05`: of two such the earlier begins before the other. */
const since = (clock: ClockJson, early_s: number, start: number, now: number): string => {
  const doubt_s = doubtOf(clock)
  const from = `${formatWhen(start + 1000 * early_s, now, { doubt_s, word: 'from' })} on`
  if (clock.likely_s === null) return from
  return `${from}, most likely ${formatWhen(start + 1000 * clock.likely_s, now, { doubt_s })}`
}

/** `3 h 40 min (3 h 10 min to 4 h 20 min)`. */
export const lasting = (clock: ClockJson): string => {
  const doubt = doubtOf(clock)
  const said = (seconds: number | null): string => whole(formatDuration(seconds ?? 0, doubt))
  return `${said(clock.likely_s)} (${said(clock.early_s)} to ${said(clock.late_s)})`
}

/** `at about 01:15 (00:45 to 02:00)`. */
const within = (clock: ClockJson, start: number, now: number): string => {
  const doubt_s = doubtOf(clock)
  const at = (after_s: number | null): number => start + 1000 * (after_s ?? 0)
  const likely = at(clock.likely_s)
  const between = formatBetween([at(clock.early_s), at(clock.late_s)], likely, now, doubt_s)
  return `${formatWhen(likely, now, { doubt_s })} (${between})`
}

/** Where a change of reels is told, of a check or of a print that runs. */
type ChangeTold = NonNullable<RunningToldJson['change_before']>

/** What is said of a reel that may not last: of a check, or as it was told when the print was started. */
export interface ReelTold {
  readonly verdict: CheckJson['verdict']
  readonly run_dry: { readonly clock: ClockJson | null }
  readonly change_before: ChangeTold | null
}

/** What to do where the last safe change comes at night. */
const atNight = (
  { earlier = [] }: Pick<ChangeTold, 'earlier'>,
  likely_s: number,
  start: number,
  now: number,
): string => {
  const ends = earlier.map(({ layer, clock }) => ({
    layer,
    clock,
    likely_s: clock.likely_s ?? 0,
    late_s: clock.late_s ?? 0,
  }))
  const found = changeAtNight(likely_s, ends, start, now)
  if (found === null) return ''
  if (found === 'be up') return ', in the night: somebody has to be up for it'
  if (found === 'begin otherwise') {
    return ', in the night: begin it in the morning or with a reel that lasts, or be up for it'
  }
  const when = formatWhen(start + 1000 * found.likely_s, now, { doubt_s: doubtOf(found.clock) })
  return `, so change it before you go to bed: after layer ${found.layer}, ${when}`
}

/** Words about when things of a print come. */
export const timeWords = {
  times: 'Times',
  start: 'Start of the print',
  notPlanned: 'Its times are not planned for this printer yet.',
  takes: ({ time }: CheckJson): string | null =>
    time === null ? null : `The print takes about ${lasting(time.takes)}.`,
  /** @param start - ms since 1970; `now` as well */
  ends: ({ time }: CheckJson, start: number, now: number): string | null =>
    time === null ? null : `It ends ${within(time.takes, start, now)}.`,
  /** The same of a print that runs. */
  endsOf: (takes: ClockJson, start: number, now: number): string =>
    `it ends ${within(takes, start, now)}`,
  /** One of the moments of a time. @param at_s - since the start */
  about: (at_s: number, clock: ClockJson, start: number, now: number): string =>
    formatWhen(start + 1000 * at_s, now, { doubt_s: doubtOf(clock) }),
  /** The likeliest alone: `tomorrow at about 01:10`; null where it is not known. */
  moment: (clock: ClockJson | null | undefined, start: number, now: number): string | null => {
    if (clock?.likely_s == null) return null
    return formatWhen(start + 1000 * clock.likely_s, now, { doubt_s: doubtOf(clock) })
  },
  dry: ({ verdict, run_dry: { clock } }: ReelTold, start: number, now: number): string | null => {
    if (verdict === 'enough' || clock?.early_s == null) return null
    return `It ${verdict === 'short' ? 'runs' : 'may run'} dry ${since(clock, clock.early_s, start, now)}.`
  },
  /** The same of a print that runs: `from 21:40 on, most likely at about 22:00`. */
  dryBetween: (clock: ClockJson | null, start: number, now: number): string | null =>
    clock?.early_s == null ? null : since(clock, clock.early_s, start, now),
  change: (
    { verdict, change_before: change, run_dry: { clock: dry } }: ReelTold,
    { layers, spiral }: { readonly layers: number; readonly spiral: boolean },
    start: number,
    now: number,
  ): string | null => {
    const clock = change?.clock
    if (verdict === 'enough' || change === null || change.layer >= layers) return null
    if (clock?.likely_s == null) return null
    const isSpiral = spiral && change.height_mm !== null
    const what = isSpiral ? whole(showHeight(change.height_mm)) : `the end of layer ${change.layer}`
    const when = `The last safe change, ${what}, comes ${within(clock, start, now)}`
    // The earliest end of the reel is that of a fast print, the likely end of the layer that of a usual one.
    const go =
      dry?.early_s == null || dry.early_s > (clock.late_s ?? 0)
        ? ''
        : ` A slower print comes later to both, so go by the ${isSpiral ? 'height' : 'layer'}, not by the clock.`
    return `${when}${atNight(change, clock.likely_s, start, now)}.${go}`
  },
} as const
