import { describe, expect, it } from 'vitest'
import { type AccuracyClass, maximumPermissibleError } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

// OIML R 76-1:2006, table 6: largest error on initial verification, load and error in verification
// intervals e. Read second-hand, in an extract of tables 1, 3 and 6.
const table: readonly (readonly [AccuracyClass, readonly number[]])[] = [
  ['I', [50_000, 200_000]],
  ['II', [5_000, 20_000, 100_000]],
  ['III', [500, 2_000, 10_000]],
  ['IIII', [50, 200, 1_000]],
]

describe.each(table)('class %s', (accuracyClass, bounds) => {
  it.each([0.1, 1, 5])('allows 0.5 e, 1 e and 1.5 e with e = %d g', (e) => {
    for (const [row, most] of bounds.entries()) {
      const error = maximumPermissibleError(accuracyClass, grams(e), grams(most * e), false)
      expect(error / e).toBeCloseTo(0.5 * (row + 1), 12)
    }
  })
  it('steps up just above each of the first two bounds', () => {
    for (const [row, most] of bounds.slice(0, 2).entries()) {
      const error = maximumPermissibleError(accuracyClass, grams(1), grams(most + 1), false)
      expect(error).toBe(0.5 * (row + 2))
    }
  })
})

// Recomputed from the table: e = 1 g, class III.
it.each([
  [250, 0.5],
  [500, 0.5],
  [501, 1],
  [1000, 1],
  [2000, 1],
  [2001, 1.5],
])('%d g may be off by %d g when verified', (load, error) => {
  expect(maximumPermissibleError('III', grams(1), grams(load), false)).toBe(error)
})

// In service twice as much: clause 3.5.2 from memory; also stated on a calibration service's page.
it('1000 g may be off by 2 g in service', () => {
  expect(maximumPermissibleError('III', grams(1), grams(1000), true)).toBe(2)
})
