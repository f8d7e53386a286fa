import { expect, test } from 'vitest'
import { parseDuration } from '../../src/units/index.ts'

test.each([
  ['3h40m', 13_200],
  ['3 h 40 min', 13_200],
  ['3:40', 13_200],
  ['0:45:30', 2730],
  ['45min', 2700],
  ['3.5h', 12_600],
  ['0,25 h', 900],
  ['1d 2h', 93_600],
  ['90s', 90],
])('%s is %i s', (typed, seconds) => {
  expect(parseDuration(typed)).toEqual({ ok: true, value: seconds })
})

test.each(['', 'long', '20000h', '0h', '3.5', '-1h'])('"%s" is no length of time', (typed) => {
  expect(parseDuration(typed)).toMatchObject({ ok: false, refusal: { code: 'duration_malformed' } })
})
