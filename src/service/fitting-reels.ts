import type { MaterialToTakeJson } from '../contract/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { materialsToTake } from './materials-to-take.ts'
import { isInUse } from './reel-card.ts'
import { type ReelFilter, reelFilter } from './reel-filter.ts'
import type { ShelfView } from './shelf-view.ts'
import { hasDiameter } from './usual-diameter-of.ts'

/** Which reels of a view a print may take. */
export interface FittingReels {
  readonly fits: (card: ReelCard) => boolean
  /** Reels in use that would fit but for their diameter. */
  readonly otherDiameter: number
  /** Of all that fit, whatever material is asked for. */
  readonly materials: readonly MaterialToTakeJson[]
}

/** Of each view so many filters are kept. */
const mostKept = 50

const kept = new WeakMap<ShelfView, Map<string, FittingReels>>()

/**
 * The reels that fit by words and nominal diameter; asked for in the same words, the same object.
 *
 * @returns refusals as `reelFilter`
 */
export const fittingReels = (
  view: ShelfView,
  { material, colour, make, place }: ReelFilter,
  diameter_mm: number,
): Outcome<FittingReels> => {
  const ofView = kept.get(view) ?? new Map<string, FittingReels>()
  kept.set(view, ofView)
  const key = JSON.stringify([material, colour, make, place, diameter_mm])
  const known = ofView.get(key)
  if (known !== undefined) return accept(known)
  const asked: ReelFilter = {
    ...(material !== undefined && { material }),
    ...(colour !== undefined && { colour }),
    ...(make !== undefined && { make }),
    ...(place !== undefined && { place }),
  }
  const filter = reelFilter(view, asked)
  if (!filter.ok) return filter
  const wanted = [...view.cards.values()].filter((card) => isInUse(card) && filter.value(card))
  const found: FittingReels = {
    fits: (card) => filter.value(card) && hasDiameter(card, diameter_mm),
    otherDiameter: wanted.filter((card) => !hasDiameter(card, diameter_mm)).length,
    materials: materialsToTake(view, asked, diameter_mm),
  }
  if (ofView.size >= mostKept) ofView.clear()
  ofView.set(key, found)
  return accept(found)
}
