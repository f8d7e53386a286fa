import { expect, it } from 'vitest'
import { buoyancyFactor } from '../../src/filament/index.ts'
import { gramsPerCubicCentimetre, measured } from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

it('is one for what is as dense as the weights', () => {
  expect(buoyancyFactor(measured(gramsPerCubicCentimetre(8))).value).toBe(1)
})

it('propagates the density', () => {
  const density = measured(gramsPerCubicCentimetre(1.24), 0.05)
  const numeric = firstOrder(
    (rho) => buoyancyFactor(measured(gramsPerCubicCentimetre(rho))).value,
    [density],
  )
  expect(buoyancyFactor(density).u / numeric).toBeCloseTo(1, 6)
})

it.each([0.0012, 0, -1, Number.NaN])('throws at %d g/cm³', (rho) => {
  expect(() => buoyancyFactor(measured(gramsPerCubicCentimetre(rho)))).toThrow(
    expect.objectContaining({ code: 'density_not_above_air' }),
  )
})
