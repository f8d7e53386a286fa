import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import {
  type Measured,
  type Outcome,
  parseDensity,
  parseLength,
  parseLinearDensity,
  parseMass,
  parsePair,
  parsePercent,
  parseShare,
  parseTemperature,
} from '../../src/units/index.ts'

const parsers: readonly (readonly [
  string,
  (text: string) => Outcome<Measured | readonly Measured[]>,
])[] = [
  ['parseMass', parseMass],
  ['parseLength', (text) => parseLength(text)],
  ['parsePair', parsePair],
  ['parseDensity', parseDensity],
  ['parseLinearDensity', parseLinearDensity],
  ['parseTemperature', parseTemperature],
  ['parseShare', parseShare],
  ['parsePercent', parsePercent],
]

const fragments =
  '1|23|456|0|.|,| |-|±|+-|x|/|e9|e999|NaN|g|kg|lb|oz|mm|m|%|°C|K|g/m|g/cm³|\u2212|\u00A0'.split(
    '|',
  )

/** Any text, and text made of what people type, so that deeper branches are reached. */
const typed = fc.oneof(
  fc.string({ unit: 'binary' }),
  fc.array(fc.constantFrom(...fragments), { maxLength: 9 }).map((pieces) => pieces.join('')),
)

it.each(parsers)(
  '%s answers anything with finite values or a refusal that points into it',
  (_name, parse) => {
    fc.assert(
      fc.property(typed, (text) => {
        const outcome = parse(text)
        if (outcome.ok) {
          for (const { value, u } of [outcome.value].flat()) {
            expect(Number.isFinite(value)).toBe(true)
            expect(u).toBeGreaterThanOrEqual(0)
            expect(Number.isFinite(u)).toBe(true)
          }
        } else {
          expect(outcome.refusal.code).toMatch(/^[a-z]+(_[a-z]+)*$/)
          expect(outcome.refusal.message).toMatch(/\.$/)
          expect(outcome.refusal.at).toBeGreaterThanOrEqual(0)
          expect(outcome.refusal.at).toBeLessThanOrEqual(text.length)
        }
      }),
      { numRuns: 2000 },
    )
  },
)
