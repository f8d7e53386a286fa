import type { ReelWoundJson } from '../contract/index.ts'
import {
  estimateShelf,
  type PrintTold,
  type ReelBelief,
  type ReelWeighed,
  type ShelfEstimate,
  type ShelfScale,
  shelfBelief,
  type WeighingSurprise,
  weighingSurprise,
  withFacts,
  withPrintTold,
} from '../estimate/index.ts'
import { daysOf, type ReelCard } from '../ledger/index.ts'
import { accept, type Grams, type Measured, type Outcome, refuse } from '../units/index.ts'
import {
  besideContradicted,
  type ContradictedWeighing,
  contradictedOfReel,
} from './contradicted.ts'
import { nameOfReel } from './name-of-reel.ts'
import { type ReelWorking, reelWorking } from './reel-working.ts'
import { reelWound } from './reel-wound.ts'
import type { ShelfView } from './shelf-view.ts'

/** A weighing told now, which is not written down. */
export interface WeighingNow {
  /** A scale of the shelf, or one that it does not have. */
  readonly scale: ShelfScale
  readonly reading: Grams
  readonly u?: number
  readonly extra?: Measured<Grams>
}

/** What is asked of a reel. */
export interface ReelAsked {
  /** Id. */
  readonly reel: string
  /** Id of a printer of the shelf. */
  readonly printer?: string
  /** Of the print on that printer; it goes before what its prints have taught. */
  readonly printTold?: PrintTold
  /** Id of the scale that a next weighing would be made on. */
  readonly scale?: string
  readonly weighing?: WeighingNow
  /** Moment of the question. */
  readonly at: string
}

/** What all that is known leads to. */
export interface ReelBelieved {
  readonly card: ReelCard
  readonly belief: ReelBelief
  readonly working: ReelWorking
  readonly wound: ReelWoundJson
  /** Its weighing that everything else contradicts. The belief's notices say nothing of it. */
  readonly contradicted?: ContradictedWeighing
  /** Of the weighing told now. */
  readonly surprise?: WeighingSurprise
}

/** Stands for the fact that a weighing told now would be. */
const notRecorded = 'not recorded'

/**
 * What is believed of one reel, for a verdict.
 *
 * @returns refusals `reel_retired`, `reel_empty` (unless it is weighed now), `reel_left_out` (its
 *   facts can not be reckoned with)
 * @throws DomainError as `estimateShelf`
 */
export const believeReel = (
  view: ShelfView,
  { reel, printer, printTold, scale, weighing, at }: ReelAsked,
): Outcome<ReelBelieved> => {
  const card = view.cards.get(reel)
  if (card === undefined || !view.estimate.book.reelAt.has(reel)) {
    const why = view.shelf.left.find(({ id }) => id === card?.opened.id)?.why ?? ''
    return refuse({
      code: 'reel_left_out',
      message: `Of reel ${reel} nothing can be reckoned. ${why}`.trim(),
    })
  }
  if (card.state === 'retired') {
    return refuse({
      code: 'reel_retired',
      message: `Reel ${reel} (${nameOfReel(card)}) left the shelf. If it is back, put right the fact that says so.`,
    })
  }
  if (card.state === 'empty' && weighing === undefined) {
    return refuse({
      code: 'reel_empty',
      message: `Reel ${reel} (${nameOfReel(card)}) is empty. If it is not, put right the fact that says so.`,
    })
  }
  const options = {
    ...(printer !== undefined && { printer }),
    ...(scale !== undefined && { scale }),
  }
  if (weighing === undefined) {
    const found = withPrintTold(shelfBelief(view.estimate, reel, options), printTold)
    const { belief, contradicted } = besideWrong(view, view.estimate, card, found)
    return accept({
      card,
      belief,
      working: reelWorking(view, card, belief, { printer, printTold }),
      wound: reelWound(view, card),
      ...(contradicted && { contradicted }),
    })
  }
  const { scale: on, ...shown } = weighing
  const estimate = view.estimate.book.scaleAt.has(on.id) ? view.estimate : withScale(view, on)
  const seen: ReelWeighed = {
    kind: 'weighed',
    id: notRecorded,
    at: daysOf(at),
    reel,
    scale: on.id,
    ...shown,
  }
  const surprise = weighingSurprise(estimate, seen)
  const after = withFacts(estimate, [seen])
  const found = withPrintTold(shelfBelief(after, reel, options), printTold)
  const { belief, contradicted } = besideWrong(view, after, card, found)
  return accept({
    card,
    belief,
    working: reelWorking(view, card, belief, { printer, printTold }),
    wound: reelWound({ estimate: after }, card),
    ...(contradicted && { contradicted }),
    surprise,
  })
}

const besideWrong = (
  { cards }: ShelfView,
  estimate: ShelfEstimate,
  card: ReelCard,
  belief: ReelBelief,
): Pick<ReelBelieved, 'belief' | 'contradicted'> => {
  const contradicted = contradictedOfReel({ cards, estimate }, card, belief.notices)
  return {
    belief: { ...belief, notices: besideContradicted(belief.notices, contradicted) },
    ...(contradicted && { contradicted }),
  }
}

const withScale = (
  { shelf: { catalogue, facts }, spreads: { priors, standIns } }: ShelfView,
  scale: ShelfScale,
): ShelfView['estimate'] =>
  estimateShelf({ ...catalogue, scales: [...catalogue.scales, scale] }, facts, { priors, standIns })
