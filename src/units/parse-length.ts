import { type LengthUnit, lengthKind } from './length-kind.ts'
import { type Measured, measured } from './measured.ts'
import { type Millimetres, millimetres } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome } from './refusal.ts'

/**
 * A length as a person types it: `62 m`, `1,75 mm`, `3 ft`, `62 ± 0.5 m`.
 *
 * @param bare - the unit of a number without one
 * @returns millimetres ≥ 0, u = 0 where no ± is given; refusals as `readSeries`
 */
export const parseLength = (
  text: string,
  bare: LengthUnit = 'mm',
): Outcome<Measured<Millimetres>> => {
  const one = readOne(text, lengthKind(bare, 'not negative'))
  return one.ok ? accept(measured(millimetres(one.value.value), one.value.u)) : one
}
