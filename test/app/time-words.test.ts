import { expect, test } from 'vitest'
import { doubtOf, timeWords } from '../../src/app/strings/time-words.ts'
import type { CheckJson } from '../../src/contract/index.ts'
import { timeMarks } from '../../src/picture/time-marks.ts'

const start = new Date(2026, 10, 30, 10, 0).getTime()
const minutes = (early: number, likely: number, late: number | null) => ({
  early_s: 60 * early,
  likely_s: 60 * likely,
  late_s: late === null ? null : 60 * late,
})
const dry = minutes(234, 267, null)
const change = minutes(218, 247, 291)
const takes = minutes(250, 304, 371)
const check = {
  verdict: 'close',
  time: { takes },
  run_dry: { clock: dry },
  change_before: { layer: 237, height_mm: 71.1, clock: change },
} as CheckJson

const hoursIn = (text: string | null): readonly string[] => text?.match(/\d\d:\d\d/g) ?? []

test('the change is told as the reel’s end is: from when on, and when most likely', () => {
  const dries = hoursIn(timeWords.dry(check, start, start))
  const told = timeWords.change(check, { layers: 258, spiral: false }, start, start)
  expect(told).toMatch(/ comes from \d\d:\d\d on, most likely at about \d\d:\d\d\.$/)
  const changes = hoursIn(told)
  expect([dries.length, changes.length]).toEqual([2, 2])
  for (const [place, when] of changes.entries()) expect(when < dries[place]!).toBe(true)
})

test('one moment has one time of day, in sentences, in the table and beside the picture', () => {
  for (const [clock, sentence] of [
    [dry, timeWords.dry(check, start, start)],
    [change, timeWords.change(check, { layers: 258, spiral: false }, start, start)],
  ] as const) {
    const [early, likely] = hoursIn(sentence)
    expect(hoursIn(timeWords.moment(clock, start, start))).toEqual([likely])
    expect(hoursIn(timeWords.about(clock.likely_s, clock, start, start))).toEqual([likely])
    expect(hoursIn(timeWords.about(clock.early_s, clock, start, start))).toEqual([early])
  }
  const heights = [
    { height_mm: 0.2, reached_s: 600 },
    { height_mm: 77.4, reached_s: takes.likely_s },
  ]
  const end = { reached_s: takes.likely_s, doubt_s: doubtOf(takes) }
  const [ends] = hoursIn(timeWords.ends(check, start, start))
  expect(timeMarks({ heights, end, start }, 5).at(-1)?.text).toBe(ends)
  // To the quarter of an hour, as what it takes is told.
  expect(timeMarks({ heights, end }, 5).at(-1)?.text).toBe('5:00 h')
  expect(timeWords.takes(check)?.replaceAll('\u00a0', ' ')).toContain('about 5 h (')
})
