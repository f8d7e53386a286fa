import { expect, it } from 'vitest'
import { kitchenScale, readingVariance } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

// Rounding to a step d gives u = d/√12, and d/√6 for the difference of two readings. Formula read
// second-hand; GUM F.2.2.1 and 4.3.7 as its place from memory; values recomputed.
it.each([
  [1, 0.2887, 0.4082],
  [5, 1.4434, 2.0412],
])('a step of %d g is %d g in a reading and %d g in a difference', (step, single, difference) => {
  const scale = { ...kitchenScale, displayStep: grams(step), repeatability: grams(0) }
  expect(Math.sqrt(readingVariance(scale))).toBeCloseTo(single, 4)
  expect(Math.sqrt(2 * readingVariance(scale))).toBeCloseTo(difference, 4)
})
