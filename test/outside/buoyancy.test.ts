import { expect, it } from 'vitest'
import { buoyancyFactor } from '../../src/filament/index.ts'
import { gramsPerCubicCentimetre, measured } from '../../src/units/index.ts'

// Conventional mass, OIML D 28 (air 1.2 kg/m³, weights 8000 kg/m³; from memory). Recomputed:
// 1240 kg/m³ has the factor 1.000818534, that is 0.82 g for each kilogram shown.
it('plastic of 1.24 g/cm³ is 0.82 g/kg heavier than the scale shows', () => {
  const { value } = buoyancyFactor(measured(gramsPerCubicCentimetre(1.24)))
  expect(value).toBeCloseTo(1.000818534, 9)
  expect(1000 * (value - 1)).toBeCloseTo(0.82, 2)
})
