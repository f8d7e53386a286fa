import type { MaterialToTakeJson } from '../contract/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { materialName } from './material-name.ts'
import { isInUse } from './reel-card.ts'
import { type ReelFilter, reelFilter } from './reel-filter.ts'
import type { ShelfView } from './shelf-view.ts'
import { hasDiameter } from './usual-diameter-of.ts'

/**
 * The materials a print could be made of: those of the reels in use that fit, whatever material is asked for.
 *
 * @returns the one of most reels first
 */
export const materialsToTake = (
  { rows, cards }: Pick<ShelfView, 'rows' | 'cards'>,
  { material: _asked, ...filter }: ReelFilter,
  diameter_mm: number,
): readonly MaterialToTakeJson[] => {
  const fits = reelFilter({ rows }, filter)
  if (!fits.ok) return []
  const counts = new Map<string | null, number>()
  const mayTake = (card: ReelCard): boolean =>
    isInUse(card) && fits.value(card) && hasDiameter(card, diameter_mm)
  for (const card of cards.values()) {
    if (!mayTake(card)) continue
    const id = card.make?.material ?? null
    counts.set(id, (counts.get(id) ?? 0) + 1)
  }
  return [...counts]
    .map(([id, reels]) => ({ id, name: id === null ? null : materialName(rows, id), reels }))
    .toSorted((a, b) => b.reels - a.reels || (a.name ?? '').localeCompare(b.name ?? '', 'en'))
}
