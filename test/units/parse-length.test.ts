import { expect, test } from 'vitest'
import { type LengthUnit, parseLength } from '../../src/units/index.ts'

const taken: readonly (readonly [string, LengthUnit | undefined, number, number])[] = [
  ['62 m', undefined, 62_000, 0],
  ['62000mm', undefined, 62_000, 0],
  ['1.75mm', undefined, 1.75, 0],
  ['1,75 mm', undefined, 1.75, 0],
  ['12 cm', undefined, 120, 0],
  ['250 µm', undefined, 0.25, 0],
  ['3 ft', undefined, 914.4, 0],
  ['1.5in', undefined, 38.1, 0],
  ['1.75', undefined, 1.75, 0],
  ['62', 'm', 62_000, 0],
  ['2', 'in', 50.8, 0],
  ['62 ± 0.5', 'm', 62_000, 500],
  ['62 m ± 50 cm', undefined, 62_000, 500],
]

test.each(taken)('%j, bare in %s, is %d ± %d mm', (text, bare, value, u) => {
  expect(parseLength(text, bare)).toEqual({ ok: true, value: { value, u } })
})

test('a mass is not a length', () => {
  expect(parseLength('62 g')).toMatchObject({
    ok: false,
    refusal: { code: 'unit_not_taken', at: 3, received: 'g' },
  })
})

test('a length is not negative', () => {
  expect(parseLength('-1 mm')).toMatchObject({ ok: false, refusal: { code: 'negative' } })
})
