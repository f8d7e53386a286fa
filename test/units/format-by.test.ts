import { expect, test } from 'vitest'
import { formatBy, formatIsoDay, formatIsoMinute } from '../../src/units/index.ts'

const at = (month: number, day: number, hour: number, minute: number): number =>
  new Date(2025, month - 1, day, hour, minute).getTime()

test.each([
  ['the same day', at(11, 30, 23, 10), 'Sun 23:10'],
  ['the next', at(12, 1, 2, 54), 'Mon 02:54'],
  ['six nights on', at(12, 6, 9, 0), 'Sat 09:00'],
  [
    'a week on, when the name of the day would be taken for today',
    at(12, 7, 9, 0),
    'Sun 7 Dec 09:00',
  ],
])('a moment by which something is done: %s', (_, moment, said) => {
  expect(formatBy(moment, at(11, 30, 8, 0))).toBe(said)
})

test('a moment in columns is of the clock of this machine', () => {
  const moment = at(1, 2, 3, 4)
  expect([formatIsoDay(moment), formatIsoMinute(moment)]).toEqual([
    '2025-01-02',
    '2025-01-02 03:04',
  ])
  expect(formatIsoMinute(new Date(moment).toISOString())).toBe('2025-01-02 03:04')
})
