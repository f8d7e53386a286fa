import { durationStep, formatHour } from '../units/index.ts'

/** When a height is reached, s after the start. */
export interface HeightTime {
  readonly height_mm: number
  readonly reached_s: number
}

/** When the heights of a print are reached. */
export interface TimesAlong {
  /** Both rising; the last is the end. */
  readonly heights: readonly HeightTime[]
  /** The end as it is told elsewhere, and its doubt; unless given the last height, to the minute. */
  readonly end?: { readonly reached_s: number; readonly doubt_s: number }
  /** When it starts, ms since 1970: marks are then told by the clock. */
  readonly start?: number
}

/** A mark of a scale, and what stands beside it. */
export interface ScaleMark {
  readonly at: number
  readonly text: string
}

const [minute, hour] = [60, 3600]
/** What people count in, s. */
const steps = [5, 10, 15, 30]
  .map((count) => count * minute)
  .concat([1, 2, 3, 6, 12, 24, 48, 96, 192, 384].map((count) => count * hour))

/**
 * Marks of a scale of heights at round times, and the end of the print.
 *
 * @param about - how many are wanted; there may be twice as few
 * @returns heights in mm; none where fewer than two heights are known
 */
export const timeMarks = (
  { heights, end, start }: TimesAlong,
  about: number,
): readonly ScaleMark[] => {
  const [first, last] = [heights[0], heights.at(-1)]
  if (first === undefined || last === undefined || last.reached_s <= first.reached_s) return []
  const step = steps.find((each) => each * about >= last.reached_s) ?? steps.at(-1)!
  // Of the clock where the start is known: whole hours of the day, not of the print.
  const from = start === undefined ? 0 : (start - new Date(start).setHours(0, 0, 0, 0)) / 1000
  const say = (after_s: number, doubt_s = 0): string =>
    start === undefined ? inHours(after_s, doubt_s) : formatHour(start + 1000 * after_s, doubt_s)
  const marks: ScaleMark[] = []
  for (let round = Math.ceil((from + first.reached_s) / step); ; round++) {
    const after_s = round * step - from
    if (after_s >= last.reached_s) break
    marks.push({ at: heightAt(heights, after_s), text: say(after_s) })
  }
  const { reached_s, doubt_s } = end ?? { reached_s: last.reached_s, doubt_s: 0 }
  return [...marks, { at: last.height_mm, text: say(reached_s, doubt_s) }]
}

/** `0:45 h`, `12:30 h`. */
const inHours = (seconds: number, doubt_s: number): string => {
  const step = Math.max(durationStep(doubt_s), minute)
  const minutes = (Math.round(seconds / step) * step) / minute
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')} h`
}

/** Straight between two heights that are known. */
const heightAt = (heights: readonly HeightTime[], after_s: number): number => {
  const k = heights.findIndex(({ reached_s }) => reached_s > after_s)
  const [below, above] = [heights[k - 1]!, heights[k]!]
  const part = (after_s - below.reached_s) / (above.reached_s - below.reached_s)
  return below.height_mm + part * (above.height_mm - below.height_mm)
}
