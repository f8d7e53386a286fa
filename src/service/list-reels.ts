import type { ReelWoundJson } from '../contract/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { type ContradictedWeighing, contradictedOfMake, makeInEstimate } from './contradicted.ts'
import { isInUse, makeOfReel } from './reel-card.ts'
import { type ReelNow, reelNow } from './reel-now.ts'
import { reelWound } from './reel-wound.ts'
import type { ShelfView } from './shelf-view.ts'

/** A reel with what is believed of it; without where its facts can not be reckoned with. */
export interface ListedReel {
  readonly card: ReelCard
  readonly wound: ReelWoundJson
  readonly now?: ReelNow
  /** Its weighing that everything else contradicts, the farthest off. */
  readonly contradicted?: ContradictedWeighing
}

/** On a shelf of more facts contradictions are not looked for: it would take too long. */
const mostFacts = 20_000

/**
 * The reels of a shelf by make, the fullest first.
 *
 * @param all - those that are empty or left the shelf too, after the others of their make
 */
export const listReels = (
  view: Pick<ShelfView, 'cards' | 'estimate'>,
  fits: (card: ReelCard) => boolean,
  all: boolean,
): readonly ListedReel[] => {
  const cards = [...view.cards.values()].filter((card) => (all || isInUse(card)) && fits(card))
  const wrong = wrongOf(view, cards)
  return cards
    .map((card): ListedReel => {
      const wound = reelWound(view, card)
      if (!view.estimate.book.reelAt.has(card.id)) return { card, wound }
      const contradicted = wrong.find(({ reel }) => reel === card.id)
      const now = reelNow(view, card.id)
      return contradicted === undefined ? { card, wound, now } : { card, wound, now, contradicted }
    })
    .toSorted(
      (a, b) =>
        makeOfReel(a.card).localeCompare(makeOfReel(b.card), 'en') ||
        Number(isInUse(b.card)) - Number(isInUse(a.card)) ||
        (b.now?.net.value ?? 0) - (a.now?.net.value ?? 0) ||
        (a.card.id < b.card.id ? -1 : 1),
    )
}

const wrongOf = (
  view: Pick<ShelfView, 'cards' | 'estimate'>,
  cards: readonly ReelCard[],
): readonly ContradictedWeighing[] => {
  const { reelFacts } = view.estimate
  if (reelFacts.reduce((sum, { length }) => sum + length, 0) > mostFacts) return []
  const makes = new Set(cards.flatMap(({ id }) => makeInEstimate(view.estimate, id) ?? []))
  return [...makes].flatMap((make) => contradictedOfMake(view, make))
}
