import { describe, expect, it, test } from 'vitest'
import { parseMass } from '../../src/units/index.ts'

const taken: readonly (readonly [string, number, number])[] = [
  ['422 g', 422, 0],
  ['422', 422, 0],
  ['  422  ', 422, 0],
  ['422g', 422, 0],
  ['0.422kg', 422, 0],
  ['0,422 kg', 422, 0],
  ['1.005 kg', 1005, 0],
  ['500mg', 0.5, 0],
  ['14.9 oz', 422.4078945625, 0],
  ['1 lb', 453.59237, 0],
  ['2 lb 3 oz', 2 * 453.59237 + 3 * 28.349523125, 0],
  ['2lbs 3 ± 0.5 oz', 2 * 453.59237 + 3 * 28.349523125, 0.5 * 28.349523125],
  ['422 ± 2 g', 422, 2],
  ['422 g ± 2', 422, 2],
  ['422g+-2', 422, 2],
  ['422 g +/- 500 mg', 422, 0.5],
  ['0.422 ± 0.002 kg', 422, 2],
  ['1.234,5 g', 1234.5, 0],
  ['1,234.5 g', 1234.5, 0],
  ['1,234,567 mg', 1234.567, 0],
  ['1.234.567 mg', 1234.567, 0],
  ['1 234 g', 1234, 0],
  ['1\u202F234,5\u00A0g', 1234.5, 0],
  ['1.234 kg', 1234, 0],
  ['0,234 kg', 234, 0],
  ['1,23 kg', 1230, 0],
  ['4.22e2 g', 422, 0],
  ['0', 0, 0],
  ['-0', -0, 0],
  ['.5 kg', 500, 0],
  ['5. g', 5, 0],
]

test.each(taken)('%j is %d ± %d g', (text, value, u) => {
  expect(parseMass(text)).toEqual({ ok: true, value: { value, u } })
})

const refused: readonly (readonly [string, string, number])[] = [
  ['', 'empty', 0],
  [' \t ', 'empty', 0],
  ['g', 'number_missing', 0],
  ['422 g ±', 'number_missing', 7],
  ['± 2 g', 'number_missing', 0],
  ['5 apples', 'unit_not_taken', 2],
  ['5 mm', 'unit_not_taken', 2],
  ['422 g 3', 'unit_not_taken', 4],
  ['422 g ± 2 ± 3', 'unit_not_taken', 10],
  ['2 lb 3 stone oz', 'unit_not_taken', 7],
  ['two pounds 3 oz', 'number_missing', 0],
  ['-5 g', 'negative', 0],
  ['\u22125 g', 'negative', 0],
  ['5 ± -1 g', 'uncertainty_negative', 4],
  ['NaN', 'not_finite', 0],
  ['-Infinity g', 'not_finite', 0],
  ['5 ± inf g', 'not_finite', 4],
  ['1e999', 'number_too_large', 0],
  ['1e308 kg', 'number_too_large', 0],
  ['5 ± 1e400 g', 'number_too_large', 4],
  ['1,234 g', 'number_ambiguous', 0],
  ['  12,345 g', 'number_ambiguous', 2],
  ['1.2.3 g', 'number_malformed', 0],
  ['1,23,456 g', 'number_malformed', 0],
  ['1.234,567,8 g', 'number_malformed', 0],
]

test.each(refused)('%j is refused as %s at %i', (text, code, at) => {
  const outcome = parseMass(text)
  expect(outcome).toMatchObject({ ok: false, refusal: { code, at } })
})

const messageOf = (text: string): string => {
  const outcome = parseMass(text)
  return outcome.ok ? '' : outcome.refusal.message
}

describe('a refusal helps', () => {
  it('offers both readings of an ambiguous comma', () => {
    expect(messageOf('1,234 g')).toBe(
      '"1,234" can be read as 1.234 or as 1234. Write the one that is meant.',
    )
  })
  it('names the unit it does not know and shows one it does', () => {
    expect(messageOf('5 apples')).toBe(
      '"apples" is not a unit of mass taken here. Write for example 422 g.',
    )
  })
  it('either reading offered is then taken', () => {
    for (const text of ['1.234 g', '1234 g']) expect(parseMass(text).ok).toBe(true)
  })
})
