import { expect, test } from 'vitest'
import { parseNumber } from '../../src/units/index.ts'

test.each([
  ['21.90', 21.9],
  ['21,90', 21.9],
  [' 0,005 ', 0.005],
  ['1 299', 1299],
  ['1,299.50', 1299.5],
  ['-3', -3],
])('%s', (typed, value) => {
  expect(parseNumber(typed)).toEqual({ ok: true, value })
})

test.each([
  ['1,299', 'number_ambiguous'],
  ['1,29,9', 'number_malformed'],
  ['1e3', 'number_malformed'],
  ['3 m', 'number_malformed'],
  ['', 'number_missing'],
  ['NaN', 'not_finite'],
])('%s is refused: %s', (typed, code) => {
  expect(parseNumber(typed)).toMatchObject({ ok: false, refusal: { code } })
})
