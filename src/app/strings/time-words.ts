import type { CheckJson, ClockJson } from '../../contract/index.ts'
import { formatBetween, formatDuration, formatWhen } from '../../units/index.ts'
import { showHeight } from './show-figure.ts'

/** A figure is not torn from its unit at the end of a line. */
const whole = (figure: string): string => figure.replaceAll(' ', '\u00a0')

/** Standard uncertainty of a time that nine of ten lie about, s. */
const doubtOf = ({ early_s, late_s }: ClockJson): number => ((late_s ?? 0) - (early_s ?? 0)) / 3.3

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
  /** A moment of which the doubt is not told: a tenth of the time until then. @param at_s - since the start */
  about: (at_s: number, start: number, now: number): string =>
    formatWhen(start + 1000 * at_s, now, { doubt_s: 0.1 * at_s }),
  /** The likeliest alone: `tomorrow at about 01:10`; null where it is not known. */
  moment: (clock: ClockJson | null | undefined, start: number, now: number): string | null => {
    if (clock?.likely_s == null) return null
    const doubt_s =
      clock.early_s === null ? 0.1 * clock.likely_s : (clock.likely_s - clock.early_s) / 1.65
    return formatWhen(start + 1000 * clock.likely_s, now, { doubt_s })
  },
  dry: ({ verdict, run_dry: { clock } }: CheckJson, start: number, now: number): string | null => {
    if (verdict === 'enough' || clock?.early_s == null) return null
    const { early_s, likely_s } = clock
    const doubt_s = likely_s === null ? 0.1 * early_s : (likely_s - early_s) / 1.65
    const from = formatWhen(start + 1000 * early_s, now, { doubt_s, word: 'from' })
    const likely =
      likely_s === null
        ? ''
        : `, most likely ${formatWhen(start + 1000 * likely_s, now, { doubt_s })}`
    return `It ${verdict === 'short' ? 'runs' : 'may run'} dry ${from} on${likely}.`
  },
  change: (
    { verdict, change_before: change }: CheckJson,
    { layers, spiral }: { readonly layers: number; readonly spiral: boolean },
    start: number,
    now: number,
  ): string | null => {
    const clock = change?.clock
    if (verdict === 'enough' || change === null || change.layer >= layers) return null
    if (clock?.likely_s == null) return null
    const doubt_s = doubtOf(clock)
    const when = formatWhen(start + 1000 * clock.likely_s, now, { doubt_s })
    const what =
      spiral && change.height_mm !== null
        ? showHeight(change.height_mm)
        : `the end of layer ${change.layer}`
    return `The last safe change, ${what}, comes ${when}.`
  },
} as const
