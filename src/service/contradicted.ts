import type { FactJson } from '../contract/index.ts'
import {
  type Contradiction,
  contradictions,
  earlierAtFault,
  type Notice,
  type ReelWeighed,
  type ShelfEstimate,
} from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** A weighing that stands in the ledger and that everything else contradicts. */
export interface ContradictedWeighing {
  readonly reel: string
  /** Id of the fact. */
  readonly fact: string
  /** Moment. */
  readonly at: string
  readonly reading_g: number
  /** What stood on the scale: the reel, the reel at its opening, or its empty carrier. */
  readonly what: 'reel' | 'when-new' | 'empty-carrier'
  /** The reading less what all else predicts, g. */
  readonly off_g: number
  /** The same in standard deviations. */
  readonly off: number
}

/** Looking through more facts than these would keep a person waiting. */
const mostFacts = 20_000

type Shelf = Pick<ShelfView, 'cards' | 'estimate'>

/**
 * The weighings of a make's reels that everything else contradicts, farthest off first.
 *
 * @param make - id
 * @returns none where the farthest off is no fact of the ledger: then that one is to be settled first;
 *   none either where the make has more than 20 000 facts, which are not looked through
 */
export const contradictedOfMake = (
  { cards, estimate }: Shelf,
  make: string,
): readonly ContradictedWeighing[] => {
  if (factsOf(estimate, make) > mostFacts) return []
  const found = contradictions(estimate, make).map((each) => named(cards, each))
  if (found[0] === undefined) return []
  return found.flatMap((each) => each ?? [])
}

/** The make of a reel as the estimate knows it: those of its reels whose carriers are of one size. */
export const makeInEstimate = ({ book }: ShelfEstimate, reel: string): string | undefined => {
  const place = book.reelAt.get(reel)
  return place === undefined ? undefined : book.catalogue.makes[book.makeOfReel[place]!]!.id
}

/** The earlier weighings that may be at fault where one not written down surprises, in the same way. */
export const atFaultFor = (
  { cards, estimate }: Shelf,
  seen: ReelWeighed,
): readonly ContradictedWeighing[] => {
  const make = makeInEstimate(estimate, seen.reel)
  if (make === undefined || factsOf(estimate, make) > mostFacts) return []
  return earlierAtFault(estimate, [seen]).flatMap((each) => named(cards, each) ?? [])
}

const named = (
  cards: Shelf['cards'],
  { fact: { reel = '', id }, surprise: { innovation, off } }: Contradiction,
): ContradictedWeighing | undefined => weighingOf(cards.get(reel), id, innovation, off)

/**
 * The weighing of a reel that is the farthest off everything else, if one contradicts it.
 *
 * @param notices - of the belief: nothing is looked for unless they tell of a surprise
 */
export const contradictedOfReel = (
  shelf: Shelf,
  { id }: ReelCard,
  notices: readonly Notice[],
): ContradictedWeighing | undefined => {
  if (!notices.some(({ code }) => code === 'surprising')) return undefined
  const make = makeInEstimate(shelf.estimate, id)
  return make === undefined
    ? undefined
    : contradictedOfMake(shelf, make).find(({ reel }) => reel === id)
}

/** The notices less what naming the contradicted weighing says better. */
export const besideContradicted = (
  notices: readonly Notice[],
  contradicted: ContradictedWeighing | undefined,
): readonly Notice[] =>
  contradicted === undefined
    ? notices
    : notices.filter(({ fact }) => fact === undefined || fact !== contradicted.fact)

const factsOf = ({ book, reelsOfMake, reelFacts }: ShelfEstimate, make: string): number =>
  (reelsOfMake[book.makeAt.get(make) ?? -1] ?? []).reduce(
    (sum, reel) => sum + reelFacts[reel]!.length,
    0,
  )

const weighingOf = (
  card: ReelCard | undefined,
  id: string,
  off_g: number,
  off: number,
): ContradictedWeighing | undefined => {
  const fact = card?.facts.find((each) => each.fact.id === id)?.fact
  if (card === undefined || fact === undefined) return undefined
  const seen =
    fact.kind === 'weighed' || fact.kind === 'carrier-weighed'
      ? fact.weighing
      : fact.kind === 'opened'
        ? fact.gross_when_new
        : undefined
  if (seen === undefined) return undefined
  const { at, kind } = fact
  const { reading_g } = seen
  return { reel: card.id, fact: id, at, reading_g, what: whats[kind] ?? 'reel', off_g, off }
}

const whats: Partial<Record<FactJson['kind'], ContradictedWeighing['what']>> = {
  opened: 'when-new',
  'carrier-weighed': 'empty-carrier',
}
