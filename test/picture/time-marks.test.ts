import { describe, expect, test } from 'vitest'
import { timeMarks } from '../../src/picture/time-marks.ts'

const heights = [
  { height_mm: 0.2, reached_s: 600 },
  { height_mm: 10.2, reached_s: 4200 },
  { height_mm: 40.2, reached_s: 18_000 },
]

describe('marks beside the heights of a print', () => {
  test('at round times after the start, and its end', () => {
    expect(timeMarks({ heights }, 5)).toEqual([
      { at: expect.closeTo(0.2 + (10 * 3000) / 3600, 9), text: '1:00 h' },
      { at: expect.closeTo(10.2 + (30 * 3000) / 13_800, 9), text: '2:00 h' },
      { at: expect.closeTo(10.2 + (30 * 6600) / 13_800, 9), text: '3:00 h' },
      { at: expect.closeTo(10.2 + (30 * 10_200) / 13_800, 9), text: '4:00 h' },
      { at: 40.2, text: '5:00 h' },
    ])
  })

  test('at whole hours of the clock where the start is known, across midnight', () => {
    const start = new Date(2026, 0, 1, 21, 30).getTime()
    const marks = timeMarks({ heights, start }, 5)
    expect(marks.map(({ text }) => text)).toEqual([
      '22:00',
      '23:00',
      '00:00',
      '01:00',
      '02:00',
      '02:30',
    ])
    // 22:00 is half an hour after the start: 1200 s after the first height.
    expect(marks[0]!.at).toBeCloseTo(0.2 + (10 * 1200) / 3600, 9)
  })

  test('no more than are wanted, and they rise', () => {
    for (const about of [2, 3, 7, 20]) {
      const marks = timeMarks({ heights }, about)
      expect(marks.length).toBeLessThanOrEqual(about + 1)
      const at = marks.map((mark) => mark.at)
      expect(at).toEqual(at.toSorted((a, b) => a - b))
    }
  })

  test('none where nothing is known', () => {
    expect(timeMarks({ heights: [] }, 5)).toEqual([])
    expect(timeMarks({ heights: heights.slice(0, 1) }, 5)).toEqual([])
  })
})
