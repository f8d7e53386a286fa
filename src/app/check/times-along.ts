import type { CheckJson } from '../../contract/index.ts'
import type { SilhouetteTimes } from '../drawing/print-silhouette.tsx'
import { doubtOf, timeWords } from '../strings/time-words.ts'
import type { StartAtHand } from './use-start.ts'

/** When heights are reached, and what of the print comes when; null where its times are not known. */
export const timesAlong = (
  { time, run_dry: dry, change_before: change }: CheckJson,
  { start, now }: StartAtHand,
): SilhouetteTimes | null => {
  if (time === null) return null
  const along = {
    heights: time.along,
    end: { reached_s: time.takes.likely_s ?? 0, doubt_s: doubtOf(time.takes) },
  }
  if (start === null) return { ...along, dry: null, change: null }
  return {
    ...along,
    start,
    dry: timeWords.moment(dry.clock, start, now),
    change: timeWords.moment(change?.clock, start, now),
  }
}
