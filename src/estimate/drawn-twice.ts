import type { Measured } from '../units/index.ts'
import { marginal } from './joint-normal.ts'
import { placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { ReelDrew, ReelWeighed, ShelfFact } from './shelf-facts.ts'
import { reelPosterior, shelfNames } from './shelf-posterior.ts'

/** A draw that stands more than once. */
export interface DrawnTwice {
  /** Id of the last one. */
  readonly fact: string
  /** What it took, g. */
  readonly mass: Measured
}

/**
 * The draws that a reel has more than once since its net was last told, alike in printer, length and
 * share: a print made twice looks the same as one written down twice.
 *
 * @param seen - only what came before it counts
 * @throws DomainError `unknown_id`
 */
export const drawnTwice = (
  estimate: ShelfEstimate,
  { reel, at }: Pick<ReelWeighed, 'reel' | 'at'>,
): readonly DrawnTwice[] => {
  const before = estimate.reelFacts[placeOf(estimate.book.reelAt, reel, 'reel')]!.filter(
    (fact) => fact.at <= at,
  )
  const since = before.slice(before.findLastIndex(tellsNet) + 1)
  const alike = Map.groupBy(
    since.filter((fact) => fact.kind === 'drew'),
    ({ printer, length, share }) => `${printer} ${length} ${share?.value ?? 1}`,
  )
  return [...alike.values()].flatMap((draws) => {
    const last = draws.at(-1)!
    return draws.length < 2 ? [] : [{ fact: last.id, mass: massOf(estimate, last) }]
  })
}

const tellsNet = ({ kind }: ShelfFact): boolean =>
  kind === 'weighed' || kind === 'ran-dry' || kind === 'emptied'

/** λ·(φ·L + s), to first order about the means, with what one draw has of its own. */
const massOf = (estimate: ShelfEstimate, { reel, printer, length, share }: ReelDrew): Measured => {
  const { linearDensity, feedFactor, startAllowance } = shelfNames
  const { feedOfOneDraw, startOfOneDraw } = estimate.book.priors
  const joint = reelPosterior(estimate, reel, { printer })
  const mean = (name: string): number => marginal(joint, { terms: { [name]: 1 } }).value
  const asked = length * (share?.value ?? 1)
  const perMm = mean(linearDensity) / 1000
  const fed = mean(feedFactor) * asked + mean(startAllowance)
  const { value, u } = marginal(joint, {
    terms: { [linearDensity]: fed / 1000, [feedFactor]: perMm * asked, [startAllowance]: perMm },
    constant: -perMm * fed,
  })
  const own = perMm * Math.hypot(fed * feedOfOneDraw.u, startOfOneDraw.u, length * (share?.u ?? 0))
  return { value, u: Math.hypot(u, own) }
}
