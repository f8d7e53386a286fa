import { expect, test } from 'vitest'
import { toldAtStart } from '../../src/app/running/told-at-start.ts'
import { recordWords } from '../../src/app/strings/record-words.ts'
import { runningWords } from '../../src/app/strings/running-words.ts'
import { timeWords } from '../../src/app/strings/time-words.ts'
import type { CheckJson } from '../../src/contract/index.ts'
import { runningRequest } from '../../src/contract/index.ts'

const start = new Date(2026, 10, 30, 18, 0).getTime()
const minutes = (early: number, likely: number, late: number) => ({
  early_s: 60 * early,
  likely_s: 60 * likely,
  late_s: 60 * late,
  early_at: new Date(start + 60_000 * early).toISOString(),
})
const point = (layer: number) => ({
  draw_mm: 1,
  share: 0.9,
  layer,
  height_mm: 0.3 * layer,
  byte: 1,
})
const tool = {
  tool: 0,
  verdict: 'close',
  run_dry: { early: point(238), likely: point(258), late: null, clock: minutes(200, 220, 250) },
  change_before: {
    layer: 237,
    height_mm: 71.1,
    draw_mm: 1,
    byte: 1,
    clock: minutes(180, 205, 240),
    earlier: [{ layer: 120, height_mm: 36, clock: minutes(90, 100, 110) }],
  },
}
const check = {
  ...tool,
  tools: [tool],
  time: { takes: minutes(210, 225, 270) },
} as unknown as CheckJson
const of = { layers: 262, spiral: false, reel: null }

test('what was told at the start is kept with the print, counted from its start', () => {
  const told = toldAtStart(check, true)
  const request = { print: 'ab'.repeat(32), reels: [{ reel: 'QX5BN' }], ...told }
  expect(runningRequest.parse(request)).toEqual(request)
  expect(told.takes).toEqual({ early_s: 12_600, likely_s: 13_500, late_s: 16_200 })
  expect(told.told![0]!.change_before!.earlier).toHaveLength(1)
  // Times of another printer are not kept, places are.
  const places = toldAtStart(check, false)
  expect(places).not.toHaveProperty('takes')
  expect(places.told![0]!.run_dry).toMatchObject({ early: { layer: 238 }, clock: null })
})

test('a print that runs says where and when its reel runs dry, and the last safe change as the check did', () => {
  const [told] = toldAtStart(check, true).told!
  const [dry, change] = runningWords.told(told!, of, start, start)
  expect(dry).toMatch(
    /^The reel may run dry from layer 238 on, most likely about layer 258: from \d\d:\d\d on, most likely at about \d\d:\d\d\.$/,
  )
  expect(change).toBe(timeWords.change(check, of, start, start))
  expect(change).toContain('layer 237')
  const [, named] = runningWords.told(told!, { ...of, reel: 'QX5BN' }, start, start)
  expect(named).toMatch(/^QX5BN: /)
})

test('without times it tells the places, and of a reel that is enough nothing', () => {
  const [told] = toldAtStart(check, false).told!
  expect(runningWords.told(told!, of, start, start)).toEqual([
    'The reel may run dry from layer 238 on, most likely about layer 258.',
    'Change it after layer 237 at the latest.',
  ])
  expect(runningWords.told({ ...told!, verdict: 'enough' }, of, start, start)).toEqual([])
  expect(runningWords.told({ tool: 0, verdict: 'short' }, of, start, start)).toEqual([])
})

test('since when it runs is said as every other moment', () => {
  const started = new Date(start + 115 * 60_000).toISOString()
  const said = recordWords.since(started, 'the Gull', start + 120 * 60_000)
  expect(said).toBe('the Gull, since 2026-11-30 19:55')
  expect(recordWords.since(started, 'the Gull', start)).toBe('the Gull, to start 2026-11-30 19:55')
})
