import type { PrintTold, ReelBelief, ShelfEstimate } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import type { Grams, Measured } from '../units/index.ts'
import { DrawnMargins, type Printer } from '../verdict/index.ts'
import { believedReels } from './believed-reels.ts'
import { isInUse } from './reel-card.ts'
import { feedingOf } from './running-prints.ts'
import type { ShelfView } from './shelf-view.ts'

/** Reels that come into question, as a verdict on any draw takes them; the same place in each is one reel. */
export interface ReadyReels {
  readonly cards: readonly ReelCard[]
  readonly beliefs: readonly ReelBelief[]
  readonly nets: readonly Measured<Grams>[]
  readonly margins: DrawnMargins
  /** Not 0 where an observation does not agree with the others. */
  readonly doubted: Uint8Array
  /** Names of the printers on which a print that runs feeds from it. */
  readonly feedsPrintsOn: readonly (readonly string[])[]
}

/** What they are made ready of. */
export type ShelfToAsk = Pick<ShelfView, 'estimate' | 'cards' | 'rows' | 'facts'>

/** Which reels, where they are to be printed, and measured. */
interface Wanted {
  /** The same function for the same reels. */
  readonly fits: (card: ReelCard) => boolean
  readonly told: Printer
  /** Ids. */
  readonly printer?: string
  readonly scale?: string
  readonly printTold?: PrintTold
}

interface Kept {
  readonly wanted: Wanted
  readonly of: ShelfToAsk
  readonly ready: ReadyReels
}

/** A shelf is asked about few printers and few kinds of reel at a time. */
const mostKept = 12

const kept = new WeakMap<ShelfEstimate, Kept[]>()

const isAlike = (one: object | undefined, other: object | undefined): boolean =>
  one === other || JSON.stringify(one) === JSON.stringify(other)

const isSame = (one: Wanted, other: Wanted): boolean =>
  one.fits === other.fits &&
  one.printer === other.printer &&
  one.scale === other.scale &&
  isAlike(one.told, other.told) &&
  isAlike(one.printTold, other.printTold)

/**
 * The reels in use that fit, with what is believed of them: made ready once as long as the estimate holds,
 * as a shelf is asked about one print after another.
 */
export const readyReels = (of: ShelfToAsk, wanted: Wanted): ReadyReels => {
  const { estimate, cards, rows, facts } = of
  const ofEstimate = kept.get(estimate) ?? []
  kept.set(estimate, ofEstimate)
  const place = ofEstimate.findIndex(
    (one) =>
      one.of.cards === cards &&
      one.of.rows === rows &&
      one.of.facts === facts &&
      isSame(one.wanted, wanted),
  )
  const [known] = place < 0 ? [] : ofEstimate.splice(place, 1)
  const one = known ?? { wanted, of, ready: makeReady(of, wanted) }
  ofEstimate.push(one)
  if (ofEstimate.length > mostKept) ofEstimate.shift()
  return one.ready
}

const makeReady = (
  { estimate, cards, rows, facts }: ShelfToAsk,
  { fits, told, ...where }: Wanted,
): ReadyReels => {
  const believed = believedReels(estimate, told, where)
  const fitting = [...cards.values()].filter(
    (card) => isInUse(card) && estimate.book.reelAt.has(card.id) && fits(card),
  )
  const reels = fitting.map(({ id }) => believed(id))
  const feeding = feedingOf(rows, facts)
  return {
    cards: fitting,
    beliefs: reels.map(({ belief }) => belief),
    nets: reels.map(({ net }) => net),
    margins: new DrawnMargins(reels.map(({ model }) => model)),
    doubted: Uint8Array.from(reels, ({ belief: { used } }) =>
      Number(used.some(({ surprising }) => surprising)),
    ),
    feedsPrintsOn: fitting.map(({ id }) => feeding.get(id) ?? []),
  }
}
