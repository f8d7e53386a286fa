import type { Kind, Unit } from './kind.ts'
import { type Measured, measured } from './measured.ts'
import { type GramsPerMetre, gramsPerMetre } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome } from './refusal.ts'

const linearDensity: Kind = {
  noun: 'linear density',
  units: new Map<string, Unit>([
    ['g/m', {}],
    ['kg/km', {}],
    ['mg/mm', {}],
    ['mg/m', { tens: -3 }],
    ['g/mm', { tens: 3 }],
    ['kg/m', { tens: 3 }],
  ]),
  bare: {},
  example: '2.98 g/m',
  domain: 'positive',
}

/**
 * A linear density as a person types it: `2.98 g/m`, `2.98 ± 0.02`. A bare number is g/m.
 *
 * @returns g/m > 0, u = 0 where no ± is given; refusals as `readSeries`
 */
export const parseLinearDensity = (text: string): Outcome<Measured<GramsPerMetre>> => {
  const one = readOne(text, linearDensity)
  return one.ok ? accept(measured(gramsPerMetre(one.value.value), one.value.u)) : one
}
