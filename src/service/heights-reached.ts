import type { Layers } from '../print/index.ts'
import { reachedAt, type Timetable } from '../verdict/index.ts'

/** A height, and when it is reached, s after the start. */
export interface HeightReached {
  readonly height_mm: number
  readonly reached_s: number
}

/** So many heights tell all that a drawing can show. */
const most = 40

/**
 * When the heights of a print are reached, most likely, at layer ends evenly along its time.
 *
 * @returns both columns rising, the last the end of the last layer; none where times are not known, or
 *   where objects are printed one after another, so that a height is reached several times
 */
export const heightsReached = (
  table: Timetable,
  layers: Layers | undefined,
): readonly HeightReached[] => {
  const ends = layers?.endTime_s
  if (layers === undefined || ends === undefined || layers.passes > 1) return []
  const last = layers.count - 1
  const heights: HeightReached[] = []
  let next_s = 0
  for (let layer = 0; layer <= last; layer++) {
    const end = ends[layer]!
    const height_mm = layers.height_mm[layer]!
    const rises = height_mm > (heights.at(-1)?.height_mm ?? 0)
    if (!rises || (end < next_s && layer < last)) continue
    heights.push({ height_mm, reached_s: reachedAt(table, end).likely_s })
    next_s = end + ends[last]! / most
  }
  return heights
}
