import { expect, test } from 'vitest'
import { parseClock, parseDay, parseMoment } from '../../src/app/field/parse-clock.ts'
import type { Outcome } from '../../src/units/index.ts'

const said = (read: Outcome<string>): string => (read.ok ? read.value : read.refusal.code)

test.each([
  ['21:30', '21:30'],
  [' 9:05 ', '09:05'],
  ['2130', '21:30'],
  ['905', '09:05'],
  ['21.30', '21:30'],
  ['21h30', '21:30'],
  ['00:00', '00:00'],
  ['24:00', 'clock_malformed'],
  ['21:60', 'clock_malformed'],
  ['9:5', 'clock_malformed'],
  ['9', 'clock_malformed'],
  ['06:06 PM', 'clock_malformed'],
  ['', 'clock_malformed'],
])('the clock %j is %j', (typed, read) => expect(said(parseClock(typed))).toBe(read))

test.each([
  ['2026-03-01', '2026-03-01'],
  [' 2026-03-01 ', '2026-03-01'],
  ['2026-03-1', 'day_malformed'],
  ['2024-02-29', '2024-02-29'],
  ['2026-02-29', 'day_malformed'],
  ['2026-13-01', 'day_malformed'],
  ['2026-00-10', 'day_malformed'],
  ['0026-01-10', 'day_out_of_bounds'],
  ['01/03/2026', 'day_malformed'],
  ['2025-01-31', 'day_out_of_bounds'],
  ['2025-02-01', '2025-02-01'],
  ['2026-12-31', '2026-12-31'],
  ['2027-01-01', 'day_out_of_bounds'],
])('of two years the day %j is %j', (typed, read) => {
  const within = ['2024-02-01', '2026-12-31'] as const
  const other = ['2025-02-01', '2026-12-31'] as const
  expect(said(parseDay(typed, typed.startsWith('2024') ? within : other))).toBe(read)
})

test.each([
  ['2026-03-01 21:30', '2026-03-01 21:30'],
  ['2026-03-01T21:30', '2026-03-01 21:30'],
  ['2026-03-01  9:05', '2026-03-01 09:05'],
  ['2026-03-01 2130', '2026-03-01 21:30'],
  ['2026-03-01', '2026-03-01 23:59'],
  ['2026-03-01 24:00', 'moment_malformed'],
  ['2026-02-30 12:00', 'moment_malformed'],
  ['21:30', 'moment_malformed'],
  ['03/01/2026, 9:30 PM', 'moment_malformed'],
])('the moment %j is %j', (typed, read) => expect(said(parseMoment(typed))).toBe(read))

test('what can not be read is refused in words that show how', () => {
  const refused = [parseClock('noon'), parseDay('today'), parseMoment('x')]
  expect(refused.map((one) => (one.ok ? '' : one.refusal.message))).toEqual([
    '"noon" is no time of day. Write it as 21:30.',
    '"today" is no day. Write it as 2026-03-01.',
    '"x" is no day and time. Write them as 2026-03-01 21:30, or a day alone.',
  ])
})
