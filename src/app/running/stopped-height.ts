import type { StoppedAtJson } from '../../contract/index.ts'
import type { RunningPrint } from './running-print.ts'

/** Height that a print had reached where it ended, mm, to draw it; null where it is not known. */
export function stoppedHeight(
  { height_mm, share }: RunningPrint['layers'],
  stopped: StoppedAtJson | null,
): number | null {
  if (stopped === null || height_mm.length === 0) return null
  if (stopped.height_mm !== undefined) return stopped.height_mm
  const reached = stopped.share
  if (reached !== undefined && share.length === 0) return null
  const layer =
    reached === undefined
      ? (stopped.layer ?? 0)
      : share.findIndex((end) => end >= reached) + 1 || height_mm.length
  return layer < 1 ? 0 : (height_mm[Math.min(layer, height_mm.length) - 1] ?? null)
}
