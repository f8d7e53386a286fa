import { expect, it } from 'vitest'
import { immersionDensity, waterDensity } from '../../src/filament/index.ts'
import { celsius, grams, measured } from '../../src/units/index.ts'

// ISO 1183-1, method A; formula from memory, worked example recomputed: 5.0000 g in air and
// 0.9744 g in water at 23 °C (0.9975408 g/cm³) make 1.23900 g/cm³.
it('5.0000 g in air and 0.9744 g in water at 23 °C are 1.23900 g/cm³', () => {
  const water = waterDensity(measured(celsius(23)))
  const { value } = immersionDensity(measured(grams(5)), measured(grams(0.9744)), water)
  expect(value).toBeCloseTo(1.239, 5)
})
