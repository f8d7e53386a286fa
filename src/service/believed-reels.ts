import {
  netOf,
  type PrintTold,
  type ReelBelief,
  type ShelfEstimate,
  shelfBelief,
  withPrintTold,
} from '../estimate/index.ts'
import type { Grams, Measured } from '../units/index.ts'
import { type MarginModel, marginModel, type Printer } from '../verdict/index.ts'

/** A reel as a verdict on any draw takes it. */
interface BelievedReel {
  readonly belief: ReelBelief
  readonly model: MarginModel
  readonly net: Measured<Grams>
}

/** Where it is to be printed, and measured. */
interface Where {
  /** Id of the printer. */
  readonly printer?: string
  readonly printTold?: PrintTold
  /** Id of the scale. */
  readonly scale?: string
}

/** A shelf is asked about few printers at a time. */
const mostKept = 6

const kept = new WeakMap<ShelfEstimate, Map<string, Map<string, BelievedReel>>>()

/**
 * What is believed of the reels of a shelf before a print, the last weighing of each examined. Worked
 * out once for each reel, printer and scale as long as the estimate holds: what differs between prints
 * is the draw alone.
 *
 * @param told - the printer's tail is taken, and all of it where no printer of the shelf is named
 * @returns throws DomainError `unknown_id`
 */
export const believedReels = (
  estimate: ShelfEstimate,
  told: Printer,
  { printTold, ...where }: Where,
): ((reel: string) => BelievedReel) => {
  const ofEstimate = kept.get(estimate) ?? new Map<string, Map<string, BelievedReel>>()
  kept.set(estimate, ofEstimate)
  const key = JSON.stringify([where, printTold, told])
  const reels = ofEstimate.get(key) ?? new Map<string, BelievedReel>()
  // The one asked about last is the one thrown away last.
  ofEstimate.delete(key)
  ofEstimate.set(key, reels)
  for (const oldest of ofEstimate.keys()) {
    if (ofEstimate.size <= mostKept) break
    ofEstimate.delete(oldest)
  }
  return (reel) => {
    const known = reels.get(reel)
    if (known !== undefined) return known
    const learnt = shelfBelief(estimate, reel, { examine: 'last', ...where })
    const belief = withPrintTold(learnt, printTold)
    const one = { belief, model: marginModel(belief, told), net: netOf(belief) }
    reels.set(reel, one)
    return one
  }
}
