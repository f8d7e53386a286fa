import { expect, test } from 'vitest'
import type { RunningPrint } from '../../src/app/running/running-prints.ts'
import { asItIs, busyWith, requestOfAsked } from '../../src/app/slate/asked-match.ts'
import { matchRequest } from '../../src/contract/index.ts'

const running = (printer: string, more: Partial<RunningPrint> = {}): RunningPrint => ({
  draw: printer,
  print: 'ab'.repeat(32),
  file: 'knob.gcode',
  started_at: '2026-03-01T20:00:00.000Z',
  reels: [{ tool: 0, reel: 'K7RMY' }],
  printer,
  ledger: 'one',
  layers: { spiral: false, height_mm: [], share: [] },
  picture: null,
  ...more,
})

test('printers are at work until what runs on them is done, as late as it may well be, from its reels', () => {
  const takes = { early_s: 3000, likely_s: 3600, late_s: 5400 }
  // Of a print that was started without its times nobody knows when it is done.
  const busy = busyWith([running('left', { takes }), running('right')])
  const runs = { print: 'ab'.repeat(32), reels: [{ tool: 0, reel: 'K7RMY' }] }
  expect(busy).toEqual([
    { printer: 'left', until: '2026-03-01T21:30:00.000Z', ...runs },
    { printer: 'right', ...runs },
  ])
  expect(requestOfAsked(asItIs, busy)).toEqual({ confidence: 0.95, busy })
  expect(requestOfAsked(asItIs, [])).toEqual({ confidence: 0.95 })
})

test('of reels that were changed in a print it tells from which layer on each fed it', () => {
  const reels = [
    { tool: 0, reel: 'K7RMY', ran_dry: true as const },
    { tool: 0, reel: 'P3QX6', after_layer: 3 },
    { tool: 0, reel: 'K7RMY', after_layer: 5 },
  ]
  const request = requestOfAsked(asItIs, busyWith([running('left', { reels })]))
  expect(request.busy).toMatchObject([{ printer: 'left', reels }])
  expect(matchRequest.parse(request)).toEqual(request)
})
