import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import {
  type AccuracyClass,
  maximumPermissibleError,
  scaleOfClass,
  weighingVariance,
} from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

const classes: readonly AccuracyClass[] = ['I', 'II', 'III', 'IIII']

it('is twice as much in service, and never falls with the load', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...classes),
      fc.double({ min: 0, max: 1000, noNaN: true }),
      fc.double({ min: 0, max: 1000, noNaN: true }),
      (accuracyClass, a, b) => {
        const error = (load: number, inService: boolean): number =>
          maximumPermissibleError(accuracyClass, grams(1), grams(load), inService)
        expect(error(a, true)).toBe(2 * error(a, false))
        expect(error(Math.min(a, b), false)).toBeLessThanOrEqual(error(Math.max(a, b), false))
      },
    ),
  )
})

it.each([
  ['interval_not_positive', 0, 1],
  ['load_out_of_class', 1, -1],
  ['load_out_of_class', 1, 10_001],
  ['load_out_of_class', 1, Number.NaN],
])('throws %s with e = %d g under %d g', (code, interval, load) => {
  expect(() => maximumPermissibleError('III', grams(interval), grams(load), false)).toThrow(
    expect.objectContaining({ code }),
  )
})

it('makes a scale of the permissible error, taken as uniform', () => {
  const scale = scaleOfClass('III', grams(1), grams(1000))
  // 2 g in service: 4/3 g², and 1/12 g² of rounding.
  expect(weighingVariance(scale, grams(1000))).toBeCloseTo(4 / 3 + 1 / 12, 12)
})
