import type { ContradictedJson } from '../contract/index.ts'
import type { ContradictedWeighing } from './contradicted.ts'

/** A weighing that everything else contradicts, on the wire. */
export const contradictedToJson = ({
  reel,
  fact,
  at,
  reading_g,
  off_g,
  off,
}: ContradictedWeighing): ContradictedJson => ({ reel, fact, at, reading_g, off_g, off })
