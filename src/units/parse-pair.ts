import { lengthKind } from './length-kind.ts'
import { type Measured, measured } from './measured.ts'
import { type Millimetres, millimetres } from './quantity.ts'
import { readSeries } from './read-series.ts'
import { accept, type Outcome } from './refusal.ts'

/** Two diameters at one place, square to each other. */
export type Pair = readonly [Measured<Millimetres>, Measured<Millimetres>]

/**
 * Caliper readings at one place: `1.72 x 1.78`, `1.72/1.78 ± 0.01 mm`, or `1.75` for filament
 * taken to be round. Bare numbers are millimetres; the uncertainty holds for each reading.
 *
 * @returns two diameters > 0, the same twice for a single reading; refusals as `readSeries`
 */
export const parsePair = (text: string): Outcome<Pair> => {
  const series = readSeries(text, lengthKind('mm', 'positive'), /[x×*/]/i)
  if (!series.ok) return series
  const { first, second = first, u } = series.value
  return accept([measured(millimetres(first), u), measured(millimetres(second), u)])
}
