import { expect, test } from 'vitest'
import { checkWay, printOfOneTool, reelAsked } from '../../src/app/check/reel-asked.ts'
import type { PrintRead } from '../../src/app/check/use-reading.ts'

const read = (...tools: readonly number[]): PrintRead => {
  const families = [{ tools: tools.map((tool) => ({ tool })) }]
  const file = { name: 'knob.gcode', prints: [{ name: null, reading: { families } }] }
  return { kind: 'read', file, member: 0, sha256: null } as unknown as PrintRead
}

test('a reel leads to the check of the print at hand on it', () => {
  const [, search] = checkWay('K7RMY').split('?')
  expect(reelAsked(read(2), search ?? '')).toEqual([{ tool: 2, reel: 'K7RMY' }])
  expect(printOfOneTool({ reading: read(2) })).toBe('knob.gcode')
  expect(reelAsked(read(2), '')).toEqual([])
})

test('a print of several tools needs more than one reel to be named', () => {
  expect(reelAsked(read(0, 1), 'reel=K7RMY')).toEqual([])
  expect(printOfOneTool({ reading: read(0, 1) })).toBeNull()
  expect(printOfOneTool({ reading: { kind: 'none' } })).toBeNull()
})
