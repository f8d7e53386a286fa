import { expect, test } from 'vitest'
import { parseNext, parseSoon } from '../../src/cli/parse-start.ts'

const at = (day: number, hour: number, minute: number): number =>
  new Date(2026, 10, day, hour, minute).getTime()

test('an hour that is to come is the next such hour, however little it is past', () => {
  const now = at(29, 23, 0)
  expect(parseNext('20:00', now, '--busy')).toBe(at(30, 20, 0))
  expect(parseNext('23:00', now, '--busy')).toBe(at(30, 23, 0))
  expect(parseNext('23:30', now, '--busy')).toBe(at(29, 23, 30))
  expect(parseNext('now', now, '--busy')).toBe(now)
  // What was begun may be past.
  expect(parseSoon('20:00', now, '--start')).toBe(at(29, 20, 0))
})

test('a day and hour that are past are refused', () => {
  const now = at(29, 23, 0)
  expect(parseNext('2026-11-30 04:00', now, '--busy')).toBe(at(30, 4, 0))
  expect(() => parseNext('2026-11-29 04:00', now, '--busy')).toThrow('is past')
})
