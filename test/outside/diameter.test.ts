import { describe, expect, it } from 'vitest'
import {
  benchCaliper,
  crossSection,
  crossSectionOfPlaces,
  lengthOfMass,
  linearDensity,
} from '../../src/filament/index.ts'
import { grams, gramsPerCubicCentimetre, measured, millimetres } from '../../src/units/index.ts'

// All values recomputed in another language from A = π/4·d² and 1.24 g/cm³.
const density = measured(gramsPerCubicCentimetre(1.24))

it.each([
  [1.75, 2.405281875405, 2.982549526, 335.2836194],
  [2.85, 6.379396582196, 7.910451762, 126.4150304],
  [3, 7.068583470577, 8.765043504, 114.0895649],
])('%d mm has %d mm², %d g/m and %d m/kg at 1.24 g/cm³', (d, area, perMetre, perKilogram) => {
  const section = crossSection(measured(millimetres(d)))
  const lambda = linearDensity(density, section)
  expect(section.value).toBeCloseTo(area, 11)
  expect(lambda.value).toBeCloseTo(perMetre, 8)
  expect(lengthOfMass(measured(grams(1000)), lambda).value / 1000).toBeCloseTo(perKilogram, 6)
})

describe('oval filament', () => {
  it.each([
    [1.72, 1.78, 2.404575017, -0.00029],
    [1.7, 1.8, 2.40331838, -0.00082],
  ])('%d × %d mm has %d mm²', (first, second, area, against) => {
    const pair = [measured(millimetres(first)), measured(millimetres(second))] as const
    const { value } = crossSectionOfPlaces([pair], benchCaliper)
    expect(value).toBeCloseTo(area, 8)
    expect(value / crossSection(measured(millimetres(1.75))).value - 1).toBeCloseTo(against, 5)
  })
})

it('±0.05 mm read as uniform is 3.299 % of the area', () => {
  const { value, u } = crossSection(measured(millimetres(1.75), 0.05 / Math.sqrt(3)))
  expect(u / value).toBeCloseTo(0.03299, 5)
})

it.each([
  [0.05, 0.0571],
  [0.02, 0.0229],
])('a diameter off by %d mm moves the area by %d of itself', (off, share) => {
  const { value, u } = crossSection(measured(millimetres(1.75), off))
  expect(u / value).toBeCloseTo(share, 4)
})
