import { type Contradiction, contradictions } from './shelf-contradictions.ts'
import { type ShelfEstimate, withFacts, withoutWeighing } from './shelf-estimate.ts'
import type { ReelWeighed } from './shelf-facts.ts'
import type { ShelfSlips } from './shelf-slips.ts'
import { weighingSurprise } from './shelf-surprise.ts'

/**
 * Earlier weighings that may be at fault where one surprises: of the same make, contradicted once the
 * new reading is taken to be right, and each by itself enough, for without it the new one surprises
 * nobody. The farthest off first.
 *
 * To be asked before a surprise is accepted. Accepted as something unrecorded it begins the net anew,
 * and nothing could tell afterwards that an earlier weighing was the wrong one.
 *
 * @param estimate - without the new reading
 * @param seen - the new reading, and any made after it that agrees; of one reel
 * @returns none where nothing surprises
 * @throws DomainError `unknown_id`, `impossible_fact`
 */
export const earlierAtFault = (
  estimate: ShelfEstimate,
  seen: readonly ReelWeighed[],
  options: { slips?: ShelfSlips } = {},
): readonly Contradiction[] => {
  const [first] = seen
  const { book } = estimate
  const surprises = (before: ShelfEstimate): boolean =>
    first !== undefined && weighingSurprise(before, first, { ...options, most: 1 }).surprising
  if (!first || !surprises(estimate)) return []
  const { make } = book.catalogue.reels[book.reelAt.get(first.reel)!]!
  const isSeen = new Set(seen.map(({ id }) => id))
  return contradictions(withFacts(estimate, seen), make, options).filter(
    ({ fact: { id } }) => !isSeen.has(id) && !surprises(withoutWeighing(estimate, id)),
  )
}
