import { readingVariance } from '../filament/index.ts'
import { type Measured, measured } from '../units/index.ts'
import { surprise } from './belief-notices.ts'
import { marginal } from './joint-normal.ts'
import { placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { CarrierWeighed } from './shelf-facts.ts'
import { makePosterior, reelPosterior, scalePosterior, shelfNames } from './shelf-posterior.ts'
import type { WeighingSurprise } from './shelf-surprise.ts'

/**
 * Tests the weighing of an empty carrier against all that an estimate knows of it, or of those of its make.
 * No causes are ranked.
 *
 * @param estimate - without this weighing
 * @throws DomainError `unknown_id`
 */
export const carrierSurprise = (
  estimate: ShelfEstimate,
  { make, reel, scale, reading, u: told, extra }: CarrierWeighed,
): WeighingSurprise => {
  const { book } = estimate
  const tare = reel === undefined ? ofMake(estimate, make) : ofReel(estimate, reel)
  const gain = scalePosterior(estimate, scale)
  const load = tare.value + (extra?.value ?? 0)
  const own =
    told ?? Math.sqrt(readingVariance(book.scales[placeOf(book.scaleAt, scale, 'scale')]!))
  const u = Math.hypot(tare.u, own, extra?.u ?? 0, gain.u * load)
  const predicted = measured(load * (1 + gain.value), u)
  const innovation = reading - predicted.value
  const off = innovation / u
  const surprising = Math.abs(off) > surprise
  return { predicted, innovation, off, surprising, unrecorded: false, causes: [] }
}

const ofReel = (estimate: ShelfEstimate, reel: string): Measured =>
  marginal(reelPosterior(estimate, reel), { terms: { [shelfNames.tare]: 1 } })

/** One carrier of it. */
const ofMake = (estimate: ShelfEstimate, make: string): Measured => {
  const { tare } = makePosterior(estimate, make)
  return measured(tare.value, Math.hypot(tare.u, estimate.book.priors.carrierOfOneMake.u))
}
