import { describe, expect, test } from 'vitest'
import { Fault } from '../../src/cli/fault.ts'
import { parseMoment } from '../../src/cli/parse-moment.ts'

const now = new Date(2026, 2, 10, 9, 30).getTime()
const local = (...fields: [number, number, number, number?, number?]): string =>
  new Date(...(fields as [number, number, number])).toISOString()

/** The code of the fault in it; '' where there is none. */
const codeOf = (typed: string): string => {
  try {
    parseMoment(typed, now, '--at')
    return ''
  } catch (error) {
    if (!(error instanceof Fault)) throw error
    return error.error.code
  }
}

test.each([
  ['2026-03-01', local(2026, 2, 1, 12)],
  // At 9:30 an hour that is to come may be last night's.
  ['8:15', local(2026, 2, 10, 8, 15)],
  ['23:50', local(2026, 2, 9, 23, 50)],
  // Before noon today, today is now.
  ['2026-03-10', new Date(now).toISOString()],
  ['2026-03-01 18:30', local(2026, 2, 1, 18, 30)],
  ['2026-03-01T18:30', local(2026, 2, 1, 18, 30)],
  ['2026-03-01T18:30:05.25Z', '2026-03-01T18:30:05.250Z'],
  ['2026-03-01 18:30 +02:00', '2026-03-01T16:30:00.000Z'],
  ['2026-03-01T18:30+0200', '2026-03-01T16:30:00.000Z'],
  ['2024-02-29', local(2024, 1, 29, 12)],
])('%s', (typed, moment) => {
  expect(parseMoment(typed, now, '--at')).toBe(moment)
})

describe.each([
  ['yesterday', 'moment_malformed'],
  ['01.03.2026', 'moment_malformed'],
  ['2026-02-30', 'moment_malformed'],
  ['2026-13-01', 'moment_malformed'],
  ['2026-03-01 25:00', 'moment_malformed'],
  ['2026-03-01T25:00Z', 'moment_malformed'],
  ['2026-02-30T10:00Z', 'moment_malformed'],
  ['2025-02-29 10:00 +02:00', 'moment_malformed'],
  ['2026-02-28T24:00Z', 'moment_malformed'],
  ['2026-03-11', 'moment_in_future'],
  ['2026-03-10 09:31', 'moment_in_future'],
])('%s', (typed, code) => {
  test(`is refused: ${code}`, () => {
    expect(codeOf(typed)).toBe(code)
  })
})

test.each([
  ['12:30', 'moment_in_future'],
  ['25:00', 'moment_malformed'],
  ['9:75', 'moment_malformed'],
])('%s alone is %s', (typed, code) => {
  expect(codeOf(typed)).toBe(code)
})
