import type { ClockJson, MatchCopyJson, PlannedChangeJson } from '../contract/index.ts'
import { changeCaution } from '../contract/index.ts'
import { formatDuration } from '../units/index.ts'

/** What the note by the printer is written from. */
export interface NoteParts {
  readonly title: string
  readonly changes: readonly PlannedChangeJson[]
  readonly begins: readonly Pick<MatchCopyJson['duties'][number], 'tool' | 'reel' | 'reel_name'>[]
  readonly nameOf: (reel: string) => string
}

const grams = ({ value, u }: { readonly value: number; readonly u: number }): string =>
  `${value.toFixed(value < 10 ? 1 : 0)} ± ${u.toFixed(u < 10 ? 1 : 0)} g`

/** When a change comes, as sure as it is: `, about 1 h 25 min after the start`. */
const afterStart = (clock: ClockJson | null): string => {
  if (clock?.likely_s == null) return ''
  const doubt_s = ((clock.late_s ?? clock.likely_s) - (clock.early_s ?? clock.likely_s)) / 3.3
  return `, about ${formatDuration(clock.likely_s, doubt_s)} after the start`
}

/** What to write on the note by the printer: which reel first, where to change, what stays behind. */
export const changeNote = ({ title, changes, begins, nameOf }: NoteParts): string => {
  const several = new Set(begins.map(({ tool }) => tool)).size > 1
  const of = (tool: number): string => (several ? `T${tool} ` : '')
  return [
    title,
    ...begins.map(({ tool, reel, reel_name }) => `${of(tool)}begin with ${reel} (${reel_name})`),
    ...changes.flatMap(
      ({ tool, after_layer, height_mm, drawn_mm, from, to, stays_g, cost_g, clock }) => [
        `${of(tool)}after layer ${after_layer} (z ${Number(height_mm.toFixed(2))} mm, ${(drawn_mm / 1000).toFixed(2)} m drawn${afterStart(clock)}): take ${from} off, put ${to} on (${nameOf(to)})`,
        `   about ${grams(stays_g)} stay on ${from}; the change takes about ${grams(cost_g)} of ${to}`,
      ],
    ),
    changeCaution,
  ].join('\n')
}
