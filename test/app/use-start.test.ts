import { expect, test } from 'vitest'
import { startTold } from '../../src/app/check/use-start.ts'

const now = 1_772_366_400_000

test('a start is now unless a time is told, and none where what was told can not be read', () => {
  const start = now - 3_600_000
  expect(startTold({ typed: '13:00', isTold: false, start: now - 1 }, now)).toMatchObject({
    value: now,
  })
  expect(startTold({ typed: '11:00', isTold: true, start }, now)).toMatchObject({ value: start })
  expect(startTold({ typed: ' ', isTold: true, start: null }, now)).toMatchObject({ value: now })
  expect(startTold({ typed: '06:06 PM', isTold: true, start: null }, now)).toMatchObject({
    ok: false,
    refusal: { code: 'clock_malformed', received: '06:06 PM' },
  })
})
