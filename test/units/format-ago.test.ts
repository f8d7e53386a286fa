import { expect, test } from 'vitest'
import { formatAgo } from '../../src/units/index.ts'

const now = new Date(2026, 2, 10, 1).getTime()

test.each([
  ['today', new Date(2026, 2, 10, 0, 30)],
  ['today', new Date(2026, 2, 11)],
  ['yesterday', new Date(2026, 2, 9, 23)],
  ['59 days ago', new Date(2026, 0, 10)],
  ['2 months ago', new Date(2026, 0, 9)],
  ['23 months ago', new Date(2024, 3, 10)],
  ['2 years ago', new Date(2024, 2, 1)],
])('%s: %s', (said, at) => {
  expect(formatAgo(at.toISOString(), now)).toBe(said)
})
