import {
  type GramsPerCubicCentimetre,
  gramsPerCubicCentimetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import { type LinearForm, marginal, meanOf } from './joint-normal.ts'
import { keepAbove } from './keep-above.ts'
import type { ReelBelief } from './reel-belief.ts'
import { isAssumed } from './shelf-assumed.ts'
import { own } from './shelf-belief.ts'
import { makeUnknowns, placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { ShelfFact } from './shelf-facts.ts'
import { shelfNames } from './shelf-posterior.ts'

/** The filament of a reel, apart from how much there is of it. */
export interface FilamentOfReel {
  readonly density: Measured<GramsPerCubicCentimetre>
  /** Of a circle with the mean cross-section. */
  readonly diameter: Measured<Millimetres>
  /** More than half of its prior variance is left. */
  readonly isDensityUsual: boolean
  readonly isDiameterUsual: boolean
}

/**
 * Density and mean diameter of a reel, to first order. What this reel's density is off its make's is known from
 * a density measured on it, apart from what that says of the make.
 *
 * @param belief - of that reel, as `shelfBelief` of that estimate made it
 * @throws DomainError `unknown_id`
 * @see docs/method/shelf.md, "A reel's belief"
 */
export const filamentOfReel = (
  { book, reelFacts }: ShelfEstimate,
  reel: string,
  { joint, net, area }: ReelBelief,
): FilamentOfReel => {
  const place = placeOf(book.reelAt, reel, 'reel')
  const make = book.makes[book.makeOfReel[place]!]!
  const { priors } = book
  const kept = keepAbove(joint, net, 0)
  const mean = meanOf(joint, shelfNames.makeDensity)
  const density = marginal(
    kept,
    densityAbout(mean, mean * priors.densityOfOneMake.u, reelFacts[place]!),
  )
  const section = marginal(kept, area)
  const across = 2 * Math.sqrt(section.value / Math.PI)
  const usual = make.density
  const ofArea = make.nominalArea * Math.hypot(make.areaSpread, priors.reelAboutMake.u)
  return {
    density: measured(gramsPerCubicCentimetre(density.value), density.u),
    diameter: measured(millimetres(across), (2 * section.u) / (Math.PI * across)),
    isDensityUsual: isAssumed(
      Math.hypot(usual.u, usual.value * priors.densityOfOneMake.u),
      density.u,
    ),
    isDiameterUsual: isAssumed(ofArea, section.u),
  }
}

/**
 * The likeliest density of a reel, g/cm³, as `filamentOfReel` has it while its net is well above nothing; quick
 * enough for each reel of a shelf.
 *
 * @throws DomainError `unknown_id`
 */
export const densityOfReel = ({ book, reelFacts, shared }: ShelfEstimate, reel: string): number => {
  const place = placeOf(book.reelAt, reel, 'reel')
  const make = book.makeOfReel[place]!
  const { value, u } = book.makes[make]!.density
  const mean = value + u * shared.makeMean[make]![makeUnknowns.density]!
  const { share, measuredAs } = measuredDensity(
    mean * book.priors.densityOfOneMake.u,
    reelFacts[place]!,
  )
  return mean + share * (measuredAs - mean)
}

/**
 * Density of one reel: that of its make, and what this one is off it as far as it was measured.
 *
 * @param spread - of one reel about its make, g/cm³
 */
const densityAbout = (mean: number, spread: number, facts: readonly ShelfFact[]): LinearForm => {
  const { share, measuredAs } = measuredDensity(spread, facts)
  return {
    terms: {
      [shelfNames.makeDensity]: 1 - share,
      [own.density]: mean * Math.sqrt(1 - share),
    },
    constant: share * measuredAs,
  }
}

/** What was measured of one reel itself, and its share against the make's. */
const measuredDensity = (
  spread: number,
  facts: readonly ShelfFact[],
): { readonly share: number; readonly measuredAs: number } => {
  const seen = facts.flatMap((fact) =>
    fact.kind === 'measured' && fact.density !== undefined ? [fact.density] : [],
  )
  const weights = seen.map(({ u }) => 1 / u ** 2)
  const weight = weights.reduce((sum, one) => sum + one, 0)
  const share = weight / (weight + 1 / spread ** 2)
  const measuredAs = seen.reduce((sum, { value }, at) => sum + (weights[at]! / weight) * value, 0)
  return { share, measuredAs }
}
