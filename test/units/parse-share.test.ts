import { expect, test } from 'vitest'
import { parsePercent, parseShare } from '../../src/units/index.ts'

test.each([
  ['95%', 0.95, 0],
  ['95 %', 0.95, 0],
  ['0.95', 0.95, 0],
  ['0,95', 0.95, 0],
  ['1', 1, 0],
  ['0', 0, 0],
  ['95 ± 1 %', 0.95, 0.01],
])('share %j is %d ± %d', (text, value, u) => {
  expect(parseShare(text)).toEqual({ ok: true, value: { value, u } })
})

test('a bare 95 may be meant as percent, and is refused where a share is asked for', () => {
  expect(parseShare('95')).toMatchObject({ ok: false, refusal: { code: 'share_above_one' } })
})

test.each([
  ['15', 0.15, 0],
  ['15 %', 0.15, 0],
  ['0.1', 0.001, 0],
  ['15 ± 2', 0.15, 0.02],
])('percent %j is %d ± %d', (text, value, u) => {
  expect(parsePercent(text)).toEqual({ ok: true, value: { value, u } })
})

test.each([
  ['101', 'share_above_one'],
  ['-1', 'negative'],
  ['%', 'number_missing'],
])('percent %j is refused as %s', (text, code) => {
  expect(parsePercent(text)).toMatchObject({ ok: false, refusal: { code } })
})
