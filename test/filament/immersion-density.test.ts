import { describe, expect, it, test } from 'vitest'
import { immersionDensity } from '../../src/filament/index.ts'
import { grams, gramsPerCubicCentimetre, measured } from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const water = measured(gramsPerCubicCentimetre(0.9975), 0.0003)
const plain = (a = 0, b = 0, liquid = 0): number => (a * liquid) / (a - b)
const air = measured(grams(5), 0.01)

describe('immersionDensity', () => {
  it.each([0.97, 0, -0.5])('propagates all three with %d g immersed', (b) => {
    const inputs = [air, measured(grams(b), 0.02), water] as const
    const { value, u } = immersionDensity(...inputs)
    expect(value).toBeCloseTo(plain(5, b, 0.9975), 12)
    expect(u / firstOrder(plain, inputs)).toBeCloseTo(1, 6)
  })
  it('is the density of the liquid for a piece that hovers', () => {
    expect(immersionDensity(air, measured(grams(0)), water).value).toBeCloseTo(0.9975, 12)
  })
  it('is below that of the liquid for a piece that floats', () => {
    expect(immersionDensity(air, measured(grams(-0.5)), water).value).toBeLessThan(0.9975)
  })
})

test.each([
  ['mass_not_positive', () => immersionDensity(measured(grams(0)), measured(grams(-1)), water)],
  ['not_lighter_in_liquid', () => immersionDensity(air, air, water)],
  ['not_lighter_in_liquid', () => immersionDensity(air, measured(grams(Number.NaN)), water)],
  [
    'density_not_positive',
    () => immersionDensity(air, measured(grams(1)), measured(gramsPerCubicCentimetre(0))),
  ],
])('throws %s', (code, broken) => {
  expect(broken).toThrow(expect.objectContaining({ code }))
})
