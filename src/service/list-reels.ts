import type { ReelCard } from '../ledger/index.ts'
import { isInUse, makeOfReel } from './reel-card.ts'
import { type ReelNow, reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'

/** A reel with what is believed of it; without where its facts can not be reckoned with. */
export interface ListedReel {
  readonly card: ReelCard
  readonly now?: ReelNow
}

/**
 * The reels of a shelf by make, the fullest first.
 *
 * @param all - those that are empty or left the shelf too, after the others of their make
 */
export const listReels = (
  view: Pick<ShelfView, 'cards' | 'estimate'>,
  fits: (card: ReelCard) => boolean,
  all: boolean,
): readonly ListedReel[] =>
  [...view.cards.values()]
    .filter((card) => (all || isInUse(card)) && fits(card))
    .map(
      (card): ListedReel =>
        view.estimate.book.reelAt.has(card.id) ? { card, now: reelNow(view, card.id) } : { card },
    )
    .toSorted(
      (a, b) =>
        makeOfReel(a.card).localeCompare(makeOfReel(b.card), 'en') ||
        Number(isInUse(b.card)) - Number(isInUse(a.card)) ||
        (b.now?.net.value ?? 0) - (a.now?.net.value ?? 0) ||
        (a.card.id < b.card.id ? -1 : 1),
    )
