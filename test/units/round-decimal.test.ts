import * as fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { decimalText, roundDecimal } from '../../src/units/index.ts'

test.each([
  [1.005, 2, 1.01],
  [-1.005, 2, -1.01],
  [8.345, 2, 8.35],
  [2.5, 0, 3],
  [-2.5, 0, -3],
  [0.5, 0, 1],
  [1.45, 1, 1.5],
  [1750, -2, 1800],
  [1.5e-9, 9, 2e-9],
  [1e21, 2, 1e21],
  [123.456, 20, 123.456],
  [4.9, -1, 0],
])('%d to %i places is %d', (x, places, rounded) => {
  expect(roundDecimal(x, places)).toBe(rounded)
})

it('gives no negative zero', () => {
  expect(Object.is(roundDecimal(-0.4, 0), 0)).toBe(true)
  expect(decimalText(-0.04, 1)).toBe('0.0')
})

describe('for any number', () => {
  const number = fc.double({ min: -1e9, max: 1e9, noNaN: true })
  const places = fc.integer({ min: -3, max: 5 })

  it('moves by at most half a unit of the last place', () => {
    fc.assert(
      fc.property(number, places, (x, p) => {
        expect(Math.abs(roundDecimal(x, p) - x)).toBeLessThanOrEqual(0.5 * 10 ** -p + 1e-6)
      }),
    )
  })

  it('is idempotent, odd, and never falls as the number rises', () => {
    fc.assert(
      fc.property(number, number, places, (a, b, p) => {
        const rounded = roundDecimal(a, p)
        expect(roundDecimal(rounded, p)).toBe(rounded)
        expect(roundDecimal(-a, p) + rounded).toBe(0)
        expect(roundDecimal(Math.min(a, b), p)).toBeLessThanOrEqual(roundDecimal(Math.max(a, b), p))
      }),
    )
  })

  it('text has the places asked for', () => {
    fc.assert(
      fc.property(number, fc.integer({ min: 1, max: 5 }), (x, p) => {
        expect(decimalText(x, p)).toMatch(new RegExp(`^-?\\d+\\.\\d{${p}}$`))
      }),
    )
  })
})
