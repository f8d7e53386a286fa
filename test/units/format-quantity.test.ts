import * as fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import {
  celsius,
  formatDensity,
  formatLength,
  formatLinearDensity,
  formatMass,
  formatShare,
  formatTemperature,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Measured,
  measured,
  millimetres,
  type Outcome,
  parseDensity,
  parseLength,
  parseLinearDensity,
  parseMass,
  parseShare,
  parseTemperature,
  share,
} from '../../src/units/index.ts'

test.each([
  [formatMass(measured(grams(171.6), 8.3)), '172 ± 8 g'],
  [formatMass(measured(grams(9999), 3)), '9999 ± 3 g'],
  [formatMass(measured(grams(12_340), 120)), '12.34 ± 0.12 kg'],
  [formatLength(measured(millimetres(1.7512), 0.0289)), '1.751 ± 0.029 mm'],
  [formatLength(measured(millimetres(57_680), 2460)), '57.7 ± 2.5 m'],
  [formatLength(measured(millimetres(-57_680), 2460)), '-57.7 ± 2.5 m'],
  [formatLength(measured(millimetres(335_283.6194))), '335.284 m'],
  [formatDensity(measured(gramsPerCubicCentimetre(1.24), 0.012)), '1.240 ± 0.012 g/cm³'],
  [formatLinearDensity(measured(gramsPerMetre(2.9825), 0.05)), '2.98 ± 0.05 g/m'],
  [formatTemperature(measured(celsius(23), 0.5)), '23.0 ± 0.5 °C'],
  [formatShare(measured(share(0.15), 0.012)), '15.0 ± 1.2 %'],
  [formatShare(measured(share(0.2))), '20 %'],
])('%s', (printed, text) => {
  expect(printed).toBe(text)
})

const holds = <Q extends number>(
  given: Measured<Q>,
  print: (m: Measured<Q>) => string,
  parse: (text: string) => Outcome<Measured<Q>>,
): void => {
  const back = parse(print(given))
  if (!back.ok) throw new Error(back.refusal.message)
  // At least one digit of u is kept, so half of the last digit is u/2 or less; an exact value
  // keeps six digits.
  const half = given.u > 0 ? given.u / 2 : Math.abs(given.value) * 0.5e-5
  const noise = 1e-12 * (1 + Math.abs(given.value) + given.u)
  expect(Math.abs(back.value.value - given.value)).toBeLessThanOrEqual(half + noise)
  expect(Math.abs(back.value.u - given.u)).toBeLessThanOrEqual(half + noise)
}

const anyOf = <Q extends number>(
  unit: (value: number) => Q,
  [least, most]: readonly [number, number],
  mostUncertain: number,
): fc.Arbitrary<Measured<Q>> =>
  fc
    .tuple(
      fc.double({ min: least, max: most, noNaN: true }),
      fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: mostUncertain, noNaN: true })),
    )
    .map(([value, u]) => measured(unit(value), u))

describe('what is printed reads back within its rounding', () => {
  it('masses', () => {
    const masses = anyOf(grams, [1e-3, 1e7], 1e5)
    fc.assert(fc.property(masses, (m) => holds(m, formatMass, parseMass)))
  })
  it('lengths', () => {
    const lengths = anyOf(millimetres, [1e-3, 1e7], 1e5)
    fc.assert(fc.property(lengths, (m) => holds(m, formatLength, parseLength)))
  })
  it('temperatures', () => {
    const temperatures = anyOf(celsius, [-200, 1e3], 50)
    fc.assert(fc.property(temperatures, (m) => holds(m, formatTemperature, parseTemperature)))
  })
  it('densities', () => {
    const densities = anyOf(gramsPerCubicCentimetre, [0.5, 20], 0.4)
    fc.assert(fc.property(densities, (m) => holds(m, formatDensity, parseDensity)))
  })
  it('linear densities', () => {
    const linear = anyOf(gramsPerMetre, [0.5, 20], 0.4)
    fc.assert(fc.property(linear, (m) => holds(m, formatLinearDensity, parseLinearDensity)))
  })
  it('shares', () => {
    const shares = anyOf(share, [1e-3, 0.9], 0.09)
    fc.assert(fc.property(shares, (m) => holds(m, formatShare, parseShare)))
  })
})
