import * as fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import {
  densityFromCutLength,
  lengthOfMass,
  linearDensity,
  linearDensityFromCutLength,
  massOfLength,
} from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
  squareMillimetres,
} from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const density = measured(gramsPerCubicCentimetre(1.24), 0.015)
const area = measured(squareMillimetres(2.4), 0.05)
const perMetre = measured(gramsPerMetre(2.98), 0.06)
const length = measured(millimetres(1003), 1.5)
const mass = measured(grams(2.97), 0.02)

/** Each function as Measured in and out, the same on plain numbers, and its inputs. */
const cases = [
  ['linearDensity', linearDensity(density, area), (a = 0, b = 0) => a * b, [density, area]],
  [
    'massOfLength',
    massOfLength(length, perMetre),
    (a = 0, b = 0) => (a * b) / 1000,
    [length, perMetre],
  ],
  [
    'lengthOfMass',
    lengthOfMass(mass, perMetre),
    (a = 0, b = 0) => (a / b) * 1000,
    [mass, perMetre],
  ],
  [
    'linearDensityFromCutLength',
    linearDensityFromCutLength(mass, length),
    (a = 0, b = 0) => (a / b) * 1000,
    [mass, length],
  ],
  [
    'densityFromCutLength',
    densityFromCutLength(mass, length, area),
    (a = 0, b = 0, c = 0) => (a / b / c) * 1000,
    [mass, length, area],
  ],
] as const

test.each(cases)('%s and its first-order uncertainty', (_name, result, plain, inputs) => {
  expect(result.value).toBeCloseTo(plain(...inputs.map(({ value }) => value)), 10)
  expect(result.u / firstOrder(plain, inputs)).toBeCloseTo(1, 7)
})

describe('lengthOfMass undoes massOfLength', () => {
  it('for any length, a retraction included', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (mm) => {
        const there = massOfLength(measured(millimetres(mm)), perMetre)
        expect(lengthOfMass(there, perMetre).value).toBeCloseTo(mm, 6)
      }),
    )
  })
  it('counts the linear density once where the length is nil', () => {
    expect(massOfLength(measured(millimetres(0), 2), perMetre).u).toBeCloseTo(0.00596, 12)
  })
})

const none = { value: gramsPerMetre(0), u: 0 }

test.each([
  ['density_not_positive', () => linearDensity(measured(gramsPerCubicCentimetre(0)), area)],
  ['area_not_positive', () => linearDensity(density, measured(squareMillimetres(-1)))],
  ['linear_density_not_positive', () => massOfLength(length, none)],
  ['linear_density_not_positive', () => lengthOfMass(mass, none)],
  ['mass_not_positive', () => linearDensityFromCutLength(measured(grams(0)), length)],
  ['length_not_positive', () => linearDensityFromCutLength(mass, measured(millimetres(0)))],
  ['area_not_positive', () => densityFromCutLength(mass, length, measured(squareMillimetres(0)))],
])('throws %s', (code, broken) => {
  expect(broken).toThrow(expect.objectContaining({ code }))
})
