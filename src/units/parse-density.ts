import type { Kind, Unit } from './kind.ts'
import { type Measured, measured } from './measured.ts'
import { type GramsPerCubicCentimetre, gramsPerCubicCentimetre } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome } from './refusal.ts'

const density: Kind = {
  noun: 'density',
  units: new Map<string, Unit>([
    ['g/cm3', {}],
    ['g/cc', {}],
    ['g/ml', {}],
    ['kg/l', {}],
    ['kg/dm3', {}],
    ['kg/m3', { tens: -3 }],
    ['g/l', { tens: -3 }],
  ]),
  bare: {},
  example: '1.24 g/cm³',
  domain: 'positive',
}

/**
 * A density as a person types it: `1.24`, `1.24 ± 0.01 g/cm3`, `1240 kg/m³`. A bare number is
 * g/cm³.
 *
 * @returns g/cm³ > 0, u = 0 where no ± is given; refusals as `readSeries`
 */
export const parseDensity = (text: string): Outcome<Measured<GramsPerCubicCentimetre>> => {
  const one = readOne(text, density)
  return one.ok ? accept(measured(gramsPerCubicCentimetre(one.value.value), one.value.u)) : one
}
