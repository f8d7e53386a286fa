import { type ChangePoint, type Reached, reachedAt } from '../verdict/index.ts'
import type { PrintTimes } from './clock-to-json.ts'

/** A layer end at which a reel can be changed, and when it comes. */
export interface EarlierChange extends Reached {
  /** 1-based. */
  readonly layer: number
  readonly height_mm: number | null
}

/** Sooner after the reel came on, another reel from the start is better than a change, s. */
const soonestChange = 1800

/**
 * Layer ends before the last safe change at which the reel can be changed as safely, but not so soon that
 * another reel would better begin.
 *
 * @param most - no more than these, evenly by layer
 * @returns ascending, times as the timetable counts them; none where times are not known
 */
export const earlierChanges = (
  times: PrintTimes,
  { layer: last, firstLayer }: Pick<ChangePoint, 'layer' | 'firstLayer'>,
  most: number = Infinity,
): readonly EarlierChange[] => {
  const { endTime_s: ends, height_mm: heights } = times.layers ?? {}
  if (ends === undefined) return []
  const isFirst = firstLayer <= 1 && times.before === undefined
  const on_s = isFirst ? 0 : reachedAt(times, ends[firstLayer - 2] ?? 0).likely_s
  const step = Math.max(1, Math.ceil((last - firstLayer) / most))
  const found: EarlierChange[] = []
  for (let layer = last - 1; layer >= firstLayer; layer -= step) {
    const reached = reachedAt(times, ends[layer - 1] ?? 0)
    if (reached.likely_s < on_s + soonestChange) break
    found.push({ layer, height_mm: heights?.[layer - 1] ?? null, ...reached })
  }
  return found.toReversed()
}
