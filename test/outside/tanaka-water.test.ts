import { expect, it } from 'vitest'
import { waterDensity } from '../../src/filament/index.ts'
import { celsius, measured } from '../../src/units/index.ts'

// Tanaka et al., Metrologia 38 (2001) 301–309. The printed table was not opened.
const kilogramsPerCubicMetre = (t: number): number =>
  1000 * waterDensity(measured(celsius(t))).value

// Read second-hand: the value printed to all digits by the documentation of the warsa.de library.
it('agrees with another implementation at 20 °C to the last digits', () => {
  expect(kilogramsPerCubicMetre(20)).toBeCloseTo(998.2067455596167, 9)
})

// Read second-hand: the table in the documentation of the R package preMetabolizer.
it.each([
  [0, 999.8428],
  [10, 999.7027],
  [15, 999.1026],
  [20, 998.2067],
  [30, 995.6488],
])('at %d °C is %d kg/m³, as a second implementation prints', (t, published) => {
  expect(kilogramsPerCubicMetre(t)).toBeCloseTo(published, 4)
})

// Recomputed from the formula, in another language.
it.each([
  [4, 999.9749],
  [16, 998.9459],
  [17, 998.7778],
  [18, 998.5984],
  [19, 998.4079],
  [21, 997.995],
  [22, 997.773],
  [23, 997.5408],
  [24, 997.2988],
  [25, 997.047],
  [26, 996.7857],
  [27, 996.5151],
  [28, 996.2353],
  [29, 995.9465],
  [40, 992.2152],
])('at %d °C is %d kg/m³', (t, recomputed) => {
  expect(kilogramsPerCubicMetre(t)).toBeCloseTo(recomputed, 4)
})

// Read second-hand (abstract): absolute measurement at 16 °C, 998.9468 ± 0.0006 kg/m³.
it('agrees with a measurement at 16 °C within twice its uncertainty', () => {
  expect(Math.abs(kilogramsPerCubicMetre(16) - 998.9468)).toBeLessThan(2 * 0.0006)
})

// Read second-hand: the UNESCO 1983 polynomial, an older fit, gives 998.2063193824 at 20 °C.
it('agrees with an older fit to a part in a million', () => {
  expect(Math.abs(kilogramsPerCubicMetre(20) / 998.2063193824 - 1)).toBeLessThan(1e-6)
})
