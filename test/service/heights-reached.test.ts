import { expect, test } from 'vitest'
import { unknownPace } from '../../src/estimate/index.ts'
import type { Layers } from '../../src/print/index.ts'
import { heightsReached } from '../../src/service/index.ts'

const layersOf = (count: number, more: Partial<Layers> = {}): Layers => ({
  count,
  passes: 1,
  spiral: false,
  step_mm: 0.2,
  height_mm: Float64Array.from({ length: count }, (_, layer) => 0.2 * (layer + 1)),
  endByte: new Float64Array(count),
  endLine: new Float64Array(count),
  endTime_s: Float64Array.from({ length: count }, (_, layer) => 60 * (layer + 1)),
  ...more,
})

const table = (total_s: number, pace = unknownPace()) => ({ time: { total_s, waits: [] }, pace })

test('a few layer ends along the whole print, the last among them, later than planned by what comes before', () => {
  const heights = heightsReached(table(30_000), layersOf(500))
  expect(heights.length).toBeLessThanOrEqual(42)
  expect(heights.length).toBeGreaterThan(30)
  expect(heights.at(-1)!.height_mm).toBeCloseTo(100)
  // A minute of preparation, as nobody has told better.
  expect(heights.at(-1)!.reached_s).toBeCloseTo(30_060, 0)
  for (const [place, { height_mm, reached_s }] of heights.slice(1).entries()) {
    expect(height_mm).toBeGreaterThan(heights[place]!.height_mm)
    expect(reached_s).toBeGreaterThan(heights[place]!.reached_s)
  }
})

test('objects one after another reach a height twice: none is told', () => {
  expect(heightsReached(table(600), layersOf(10, { passes: 2 }))).toEqual([])
  expect(heightsReached(table(600), undefined)).toEqual([])
  const { endTime_s: _, ...untimed } = layersOf(10)
  expect(heightsReached(table(600), untimed)).toEqual([])
})
