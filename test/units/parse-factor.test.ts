import { expect, test } from 'vitest'
import { parseFactor } from '../../src/units/index.ts'

test.each([
  ['1.006', 1.006, 0.005],
  ['0,994 ± 0,01', 0.994, 0.01],
  ['99.4 %', 0.994, 0.005],
  ['99.4 ± 1 %', 0.994, 0.01],
  ['1 +/- 0', 1, 0],
  ['0.8', 0.8, 0.005],
  ['1.25', 1.25, 0.005],
])('%s', (text, value, u) => {
  const read = parseFactor(text)
  if (!read.ok) throw new Error(read.refusal.message)
  expect(read.value.value).toBeCloseTo(value, 12)
  expect(read.value.u).toBeCloseTo(u, 12)
})

test.each([
  ['fast', 'factor_malformed'],
  ['', 'factor_malformed'],
  ['-1', 'factor_malformed'],
  ['0.79', 'factor_out_of_range'],
  ['100', 'factor_out_of_range'],
])('"%s" is refused', (text, code) => {
  expect(parseFactor(text)).toMatchObject({ ok: false, refusal: { code } })
})
