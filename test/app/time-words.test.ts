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
  change_before: { layer: 237, height_mm: 71.1, clock: change, earlier: [] },
} as unknown as CheckJson

const hoursIn = (text: string | null): readonly string[] => text?.match(/\d\d:\d\d/g) ?? []

test('the last safe change is told with what it lies between, and by what to go', () => {
  const told = timeWords.change(check, { layers: 258, spiral: false }, start, start)
  expect(told).toMatch(
    / comes at about \d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\)\. A slower print .*layer/,
  )
  const [likely, early, late] = hoursIn(told)
  expect(early! < likely! && likely! < late!).toBe(true)
  // Most likely before the reel may run dry at the earliest, or at least before it most likely does.
  const [, dries] = hoursIn(timeWords.dry(check, start, start))
  expect(likely! < dries!).toBe(true)
})

test('a change that comes at night is made before bed, or somebody is up for it', () => {
  const night = new Date(2026, 10, 30, 20, 0).getTime()
  const ends = [60, 150, 190, 240].map((at, layer) => ({
    layer: 50 + layer,
    height_mm: null,
    clock: minutes(at - 8, at, at + 8),
  }))
  const at = (earlier: typeof ends, begun = night, now = night): string | null => {
    const before = { ...check.change_before!, earlier }
    return timeWords.change(
      { ...check, change_before: before },
      { layers: 258, spiral: false },
      begun,
      now,
    )
  }
  // Layer 52 ends by 23:18, layer 53 at about midnight.
  expect(at(ends)).toContain('change it before you go to bed: after layer 52, at about 23:10')
  expect(at(ends.slice(3))).toContain('in the night: begin it in the morning')
  expect(at(ends.slice(3), night, night + 3_600_000)).toContain('somebody has to be up for it')
  // By day nothing of the kind is said, nor of an end that is gone by.
  expect(at(ends, start, start)).not.toContain('bed')
  expect(at(ends, night, night + 12_000_000)).toContain('somebody has to be up for it')
})

test('one moment has one time of day, in sentences, in the table and beside the picture', () => {
  for (const [clock, sentence] of [
    [dry, timeWords.dry(check, start, start)],
    [change, timeWords.change(check, { layers: 258, spiral: false }, start, start)],
  ] as const) {
    // The one begins with the earliest, the other with the likeliest.
    const told = hoursIn(sentence)
    const [early, likely] = clock === dry ? told : [told[1], told[0]]
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
