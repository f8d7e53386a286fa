import { describe, expect, it } from 'vitest'
import {
  crossSection,
  lengthOfWinding,
  nestedPacking,
  stackedPacking,
} from '../../src/filament/index.ts'
import { measured, millimetres } from '../../src/units/index.ts'

const inch = 25.4
const foot = 304.8

/** Length in mm on a drum given in mm, at a packing. */
const lengthOn = (
  drum: { readonly hub: number; readonly outer: number; readonly width: number },
  diameter: number,
  packing: number,
): number => {
  const length = lengthOfWinding(
    {
      hub: measured(millimetres(drum.hub)),
      outer: measured(millimetres(drum.outer)),
      width: measured(millimetres(drum.width)),
    },
    crossSection(measured(millimetres(diameter))),
    measured(packing),
  )
  if (!length.ok) throw new Error(length.refusal.message)
  return length.value.value
}

describe('a drum of 10 in, flange 20 in, width 12 in, rope 1/2 in', () => {
  const drum = { hub: 10 * inch, outer: 20 * inch, width: 12 * inch }
  const feet = lengthOn(drum, inch / 2, stackedPacking) / foot

  // Read second-hand: a winch page gives "about 940 ft" for 10 layers of 24 turns.
  it('holds about 940 ft', () => expect(Math.abs(feet - 940)).toBeLessThan(5))

  // Recomputed: the sum of the 10 layers, 24 turns each, mean diameter 10 in + (2i − 1)·d.
  it('holds what its layers add up to', () => {
    let sum = 0
    for (let layer = 1; layer <= 10; layer += 1)
      sum += (24 * Math.PI * (10 + (2 * layer - 1) / 2)) / 12
    expect(feet).toBeCloseTo(sum, 9)
    expect(feet).toBeCloseTo(942.478, 3)
  })

  // Read second-hand: L = 0.2618·W·h·(B + h)/d², Handbook of Oceanographic Winch, Wire and Cable
  // Technology, ch. 12; a cable maker's sheet prints the same with 0.262.
  it.each([
    [0.2618, 1e-5],
    [0.262, 1e-3],
  ])('agrees with the handbook form and %d', (k, tolerance) => {
    const handbook = (k * 12 * 5 * (10 + 5)) / 0.5 ** 2
    expect(Math.abs(feet / handbook - 1)).toBeLessThan(tolerance)
  })
})

// Read second-hand: capacities of one winch with three ropes, two drums (Allied W6F, figure 3).
describe.each([
  [10, [399, 287, 223]],
  [7, [425, 305, 237]],
] as const)('a winch with a drum of %d in', (hub, published) => {
  it('holds rope as the inverse square of its diameter, within 3 %', () => {
    const drum = { hub: hub * inch, outer: 2 * hub * inch, width: hub * inch }
    const lengths = [3 / 4, 7 / 8, 1].map((d) => lengthOn(drum, d * inch, stackedPacking))
    for (const index of [1, 2]) {
      const ours = (lengths[index] ?? 0) / (lengths[0] ?? 0)
      const theirs = (published[index] ?? 0) / published[0]
      expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.03)
    }
  })
})

// Recomputed: core 80 mm, outer 190 mm, width 60 mm, filament 1.75 mm.
it('a reel of 80, 190 and 60 mm holds 457 m stacked, 528 m nested', () => {
  const reel = { hub: 80, outer: 190, width: 60 }
  expect(lengthOn(reel, 1.75, stackedPacking)).toBeCloseTo(457_005.56, 1)
  expect(lengthOn(reel, 1.75, nestedPacking)).toBeCloseTo(527_704.57, 1)
})
