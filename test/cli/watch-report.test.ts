import { expect, test } from 'vitest'
import { watchReport } from '../../src/cli/watch-report.ts'
import type { WatchJson } from '../../src/contract/index.ts'

const unread = (again: boolean): string => {
  const error = {
    code: 'no_machine_code',
    message: 'Nothing in it.',
    file: '/harbour/prints/a.gcode',
  }
  const told = { event: 'unread', at: '2026-03-01T12:00:00.000Z', again, error }
  const whole = { ...told, error: { ...error, line: 3 } } as unknown as WatchJson
  return watchReport({ colour: 'none', unicode: true } as never, {
    told: whole,
    folder: '/harbour/prints',
  })
}

test('a file that can not be read is called as one that can: by its name in the folder', () => {
  expect(unread(false)).toContain('Not read: a.gcode: line 3: Nothing in it.')
  expect(unread(true)).toMatch(/ {2}a\.gcode is not whole yet/)
})
