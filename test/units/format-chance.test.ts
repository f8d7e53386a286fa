import * as fc from 'fast-check'
import { expect, it, test } from 'vitest'
import { formatChance } from '../../src/units/index.ts'

test.each([
  [0.9973, '99.7 %'],
  [0.95, '95.0 %'],
  [0.9, '90 %'],
  [0.285, '29 %'],
  [0.5, '50 %'],
  [0.05, '5.0 %'],
  [0.001, '0.1 %'],
  [0.0005, '0.1 %'],
  [0.0004, '< 0.1 %'],
  [Number.MIN_VALUE, '< 0.1 %'],
  [0.999, '99.9 %'],
  [0.9994, '99.9 %'],
  [0.9995, '> 99.9 %'],
  [1 - Number.EPSILON, '> 99.9 %'],
  [0, '0 %'],
  [1, '100 %'],
])('a chance of %d is printed %j', (chance, text) => {
  expect(formatChance(chance)).toBe(text)
})

it.each([-0.1, 1.1, Number.NaN])('%d is no chance', (chance) => {
  expect(() => formatChance(chance)).toThrow(
    expect.objectContaining({ code: 'chance_out_of_range' }),
  )
})

it('never calls an uncertain thing certain, and is within its rounding', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, minExcluded: true, maxExcluded: true, noNaN: true }),
      (chance) => {
        const text = formatChance(chance)
        expect(['0 %', '0.0 %', '100 %', '100.0 %']).not.toContain(text)
        const shown = Number.parseFloat(text.replace(/^[<>] /, ''))
        expect(Math.abs(shown - 100 * chance)).toBeLessThanOrEqual(0.5 + 1e-9)
      },
    ),
  )
})
