import type { Finding } from './finding.ts'
import type { Bead, Counts } from './reading.ts'

/** Of fewer moves nothing can be said. */
const leastMoves = 100
/** A print draws about what its extruding moves lay; where E goes back as often as forth it does not. */
const leastDrawn = 0.2
/** Where every E is like the one before, hardly any move feeds. */
const leastExtruding = 0.1
/** More than any one E word and a purge come to, mm. */
const most_mm = 15
/** Cross-section of a bead that no nozzle lays, mm². Common practice, no source. */
const leastArea_mm2 = 0.01
/** Where E goes back after every third move or more, it is no retraction. */
const leastBack = 1 / 3

/**
 * Says that a file's E looks relative where the file was read as absolute: each E is then a small step, and
 * the draw no more than the largest of them. A start macro on the machine may have set the mode.
 *
 * @param drawn_mm - by all tools
 */
export const looksRelative = (
  bead: Bead | null,
  { moves, extrudingMoves: extruding, retractions: back }: Counts,
  drawn_mm: number,
): Omit<Finding, 'byte' | 'line'> | null => {
  if (moves < leastMoves || drawn_mm === 0) return null
  const goesBack = back >= leastBack * extruding
  const laidInVain = bead !== null && drawn_mm < leastDrawn * bead.feedPerPath * bead.sampled_mm
  const laysNothing = bead !== null && bead.area_mm2 < leastArea_mm2
  const stands = extruding < leastExtruding * moves && drawn_mm < most_mm
  if (!(goesBack && (laidInVain || laysNothing)) && !stands) return null
  const drawn = drawn_mm < 1000 ? `${drawn_mm.toFixed(1)} mm` : `${(drawn_mm / 1000).toFixed(2)} m`
  return {
    code: 'e_looks_relative',
    severity: 'ask',
    count: 1,
    message: `${moves} moves draw ${drawn} in all, for E goes back and forth. It looks relative, which the file does not say: a start macro on the machine may. Say that it is, or that it is not.`,
  }
}
