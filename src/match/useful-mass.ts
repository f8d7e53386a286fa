import { type Grams, grams } from '../units/index.ts'

/** Below this what is left on a reel is a stub, g, where no history says otherwise; common practice, no source. */
export const usualUsefulMass: Grams = grams(50)

/** Fewer prints than this say nothing of what is usual here. */
const enoughPrints = 8

/** What is left is useful when so many of the prints so far would have fitted on it. */
const usefulShare = 0.25

/**
 * How much must be left on a reel to be useful, learnt from what the tools of past prints took: their
 * lower quartile (linear between ranks), so that one print in four could be taken from it.
 *
 * @param taken - g, > 0, one for each tool of each print done, in any order
 * @returns `usualUsefulMass` while fewer than eight are known
 */
export const usefulMass = (taken: readonly number[]): Grams => {
  const sorted = taken.filter((mass) => mass > 0).toSorted((a, b) => a - b)
  if (sorted.length < enoughPrints) return usualUsefulMass
  const place = usefulShare * (sorted.length - 1)
  const below = Math.floor(place)
  const from = sorted[below]!
  const to = sorted[Math.min(below + 1, sorted.length - 1)]!
  return grams(from + (place - below) * (to - from))
}
