import { expect, test } from 'vitest'
import { parsePair } from '../../src/units/index.ts'

test.each([
  ['1.72x1.78', 1.72, 1.78, 0],
  ['1.72 × 1.78 mm', 1.72, 1.78, 0],
  ['1,72/1,78', 1.72, 1.78, 0],
  ['1.72*1.78', 1.72, 1.78, 0],
  ['1.75', 1.75, 1.75, 0],
  ['0.175 x 0.178 cm', 1.75, 1.78, 0],
  ['1.72 mm x 1.78 mm ± 10 µm', 1.72, 1.78, 0.01],
  ['1.72/1.78 +/- 0.01', 1.72, 1.78, 0.01],
])('%j is %d by %d, each ± %d mm', (text, first, second, u) => {
  expect(parsePair(text)).toEqual({
    ok: true,
    value: [
      { value: first, u },
      { value: second, u },
    ],
  })
})

test.each([
  ['', 'empty', 0],
  ['1.72x', 'number_missing', 5],
  ['x1.72', 'number_missing', 0],
  ['1.72x0', 'not_positive', 5],
  ['1.72x-1', 'negative', 5],
  ['1.72x1.78x1.75', 'unit_not_taken', 9],
  ['1.72 x 1,780', 'number_ambiguous', 7],
])('%j is refused as %s at %i', (text, code, at) => {
  expect(parsePair(text)).toMatchObject({ ok: false, refusal: { code, at } })
})
