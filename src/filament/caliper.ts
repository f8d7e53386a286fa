import { type Millimetres, millimetres } from '../units/index.ts'
import type { Source } from './source.ts'

/** What a pair of calipers gets wrong on filament. */
export interface Caliper {
  /** Smallest step of the display. */
  readonly step: Millimetres
  /** Standard uncertainty common to every reading: zero, wear, and how hard the jaws press. */
  readonly error: Millimetres
  readonly source: Source
}

/** Digital calipers as found on a bench; replace by what their certificate says. */
export const benchCaliper: Caliper = {
  step: millimetres(0.01),
  error: millimetres(0.012),
  source: {
    standing: 'common practice, no source',
    where: 'display of 0.01 mm, limits of error ±0.02 mm taken as uniform',
  },
}
