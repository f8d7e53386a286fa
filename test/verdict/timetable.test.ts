import { describe, expect, test } from 'vitest'
import { unknownPace } from '../../src/estimate/index.ts'
import { millimetres, share } from '../../src/units/index.ts'
import { dryTimes, type RunDryPoint, reachedAt, type Timetable } from '../../src/verdict/index.ts'

/** A pace without doubt beyond scatter. */
const sure = { ...unknownPace(), covariance: new Float64Array(9) }

const table: Timetable = {
  time: {
    total_s: 10_000,
    waits: [
      { kind: 'bed', at_s: 0, times: 1 },
      { kind: 'person', at_s: 6000, times: 1 },
    ],
  },
  pace: sure,
}

const point = (planned_s: number | null): RunDryPoint => ({
  draw_mm: millimetres(1000),
  share: share(0.5),
  layer: 1,
  height_mm: 0.2,
  byte: 0,
  planned_s,
})

test('a place has the waits before it, not those behind', () => {
  expect(reachedAt(table, 5000).likely_s).toBeCloseTo(60 + 240 + 5000, 6)
  expect(reachedAt(table, 6000).likely_s).toBeCloseTo(60 + 240 + 600 + 6000, 6)
  expect(reachedAt(table).likely_s).toBeCloseTo(60 + 240 + 600 + 10_000, 6)
})

describe('when the reel runs dry', () => {
  test('the doubts about place and time add up as squares', () => {
    const dry = dryTimes(table, { early: point(2000), likely: point(3000), late: point(4000) })!
    const middle = reachedAt(table, 3000)
    expect(dry.likely_s).toBe(middle.likely_s)
    const off = middle.likely_s - dry.early_s!
    expect(off).toBeCloseTo(Math.hypot(1000, middle.likely_s - middle.early_s), 6)
    expect(dry.late_s! - middle.likely_s).toBeCloseTo(
      Math.hypot(1000, middle.late_s - middle.likely_s),
      6,
    )
  })

  test('where it more likely lasts there is an early time alone', () => {
    const dry = dryTimes(table, { early: point(2000), likely: null, late: null })!
    expect(dry).toEqual({ early_s: reachedAt(table, 2000).early_s, likely_s: null, late_s: null })
  })

  test('where it lasts, or times are not known, nothing', () => {
    expect(dryTimes(table, { early: null, likely: null, late: null })).toBeNull()
    expect(dryTimes(table, { early: point(null), likely: null, late: null })).toBeNull()
  })

  test('never before the start', () => {
    const dry = dryTimes(table, { early: point(0), likely: point(100_000), late: null })!
    expect(dry.early_s).toBeGreaterThanOrEqual(0)
  })
})
