import type { Prior } from './priors.ts'
import { estimateShelf, type ShelfEstimate } from './shelf-estimate.ts'
import { defaultShelfPriors, type ShelfPriors } from './shelf-priors.ts'

/*
 * How much makes, reels, printers and prints differ from each other is a guess before it is seen, and
 * every chance rests on it. Each guess is multiplied by a factor f that is learnt: ln f is normal about
 * 0, and the readings of the shelf weigh it by their own density under the model, everything unknown
 * integrated out (`SharedPosterior.misfit`). What belongs into the priors is then the mean of f², not
 * the likeliest f: a spread that is known to a factor only is worth a wider one.
 */

/** The spreads that are learnt, each by a factor of its own. */
export const spreadNames = [
  'carrier',
  'overfill',
  'linearDensity',
  'feedFactor',
  'feedOfOneDraw',
  'start',
  'scale',
] as const

/** For each spread a factor, > 0; 1 leaves it as the priors have it. */
export type SpreadFactors = Readonly<Record<(typeof spreadNames)[number], number>>

const each = (value: number): Record<(typeof spreadNames)[number], number> => ({
  carrier: value,
  overfill: value,
  linearDensity: value,
  feedFactor: value,
  feedOfOneDraw: value,
  start: value,
  scale: value,
})

/**
 * Priors with their spreads multiplied. Overfill, linear density and start allowance have one factor
 * each, between makes or printers and within them; the feed factor has two, because what differs
 * between two feeders has little to do with what differs between two prints.
 */
export const withSpreads = (priors: ShelfPriors, factors: SpreadFactors): ShelfPriors => {
  const { carrier, overfill, linearDensity, feedFactor, feedOfOneDraw, start, scale } = factors
  const ofDraw = times(priors.feedOfOneDraw, feedOfOneDraw)
  const ofPrinter = Math.max(0, priors.feedFactor.u ** 2 - priors.feedOfOneDraw.u ** 2)
  return {
    ...priors,
    carrierOfOneMake: times(priors.carrierOfOneMake, carrier),
    overfill: times(priors.overfill, overfill),
    overfillOfOneMake: times(priors.overfillOfOneMake, overfill),
    diameterOffset: times(priors.diameterOffset, linearDensity),
    reelAboutMake: times(priors.reelAboutMake, linearDensity),
    densityOfOneMake: times(priors.densityOfOneMake, linearDensity),
    // The prior of the feed factor has that of a single print in it.
    feedFactor: {
      ...priors.feedFactor,
      u: Math.hypot(feedFactor * Math.sqrt(ofPrinter), ofDraw.u),
    },
    feedOfOneDraw: ofDraw,
    startAllowance: times(priors.startAllowance, start),
    startOfOneDraw: times(priors.startOfOneDraw, start),
    scaleOverStated: {
      ...priors.scaleOverStated,
      value: priors.scaleOverStated.value * scale,
    },
  }
}

const times = (prior: Prior, factor: number): Prior => ({ ...prior, u: prior.u * factor })

/** What is learnt of the spreads. */
export interface LearntSpreads {
  /** The likeliest factor of each. */
  readonly likeliest: SpreadFactors
  /** Standard deviation of its logarithm. */
  readonly doubt: SpreadFactors
  /** √(mean of f²): `likeliest`·exp(doubt²). */
  readonly factors: SpreadFactors
  /** The priors with these factors in them: what an estimate should be made with. */
  readonly priors: ShelfPriors
}

/** How to learn. */
export interface SpreadOptions {
  /** Those that the factors multiply: `defaultShelfPriors` unless given. */
  readonly priors?: ShelfPriors
  /**
   * Standard deviation of ln f beforehand: ln 2 unless given. The guesses are round numbers of common
   * practice, two in three of which may be right to a factor of two.
   */
  readonly doubt?: number
  /** Where to start: 1 unless given, or what was learnt last time. */
  readonly from?: SpreadFactors
  /** How often to go through all factors. */
  readonly sweeps?: number
  /** How many reels to learn from: those with most facts. Beyond a hundred nothing much is gained. */
  readonly mostReels?: number
}

/** Between the points a parabola is laid through, in ln f. */
const step = 0.4
/** How many steps to walk at most: e^(0.4·8), a factor of twenty-five. */
const farthest = 8

/**
 * Walks downhill in steps until three points have the lowest in their middle, and lays a parabola
 * through them. Far from the top its curvature would say little of where the top is.
 *
 * @param least - the curvature is not taken as less
 */
const topNear = (
  from: number,
  cost: (log: number) => number,
  least: number,
): { top: number; bend: number } => {
  let here = from
  let [low, middle, high] = [cost(here - step), cost(here), cost(here + step)]
  for (let steps = 0; steps < farthest && Math.min(low, high) < middle; steps++) {
    if (low < high) {
      here -= step
      ;[low, middle, high] = [cost(here - step), low, middle]
    } else {
      here += step
      ;[low, middle, high] = [middle, high, cost(here + step)]
    }
  }
  const bend = Math.max((low - 2 * middle + high) / step ** 2, least)
  const move = (low - high) / (2 * step) / bend
  return { top: here + Math.min(step, Math.max(-step, move)), bend }
}

/**
 * Learns the spreads of the priors from the shelf itself.
 *
 * One factor after the other moves to where the density has its top, as a parabola through three points
 * near it has it; the curvature is never taken as less than that of the prior. With seven factors and two
 * sweeps that is 42 single rounds of the estimate over at most `mostReels` reels, and one for each step
 * of 0.4 in ln f that a top is away.
 *
 * @param estimate - whose facts to learn from, and about whose point to expand products; the priors it
 *   was made with do not matter
 * @returns where nothing tells of a spread: likeliest 1, and the doubt of the prior
 * @throws DomainError as `estimateShelf`
 * @see docs/method/shelf.md, "Spreads"
 */
export const learnSpreads = (
  estimate: ShelfEstimate,
  {
    priors = defaultShelfPriors,
    doubt: before = Math.LN2,
    from = each(1),
    sweeps = 2,
    mostReels = 100,
  }: SpreadOptions = {},
): LearntSpreads => {
  const { book, point, reelFacts, makeFacts } = estimate
  const told = reelFacts.toSorted((a, b) => b.length - a.length).slice(0, mostReels)
  const facts = [...told, ...makeFacts].flat()
  /** −ln of the density of readings and factors, less a constant. */
  const cost = (factors: SpreadFactors): number => {
    const { shared } = estimateShelf(book.catalogue, facts, {
      priors: withSpreads(priors, factors),
      rounds: 1,
      about: point,
    })
    const own = spreadNames.reduce((sum, name) => sum + Math.log(factors[name]) ** 2, 0)
    return shared.misfit / 2 + own / (2 * before ** 2)
  }
  const likeliest = { ...from }
  const doubt = each(before)
  for (let sweep = 0; sweep < sweeps; sweep++) {
    for (const name of spreadNames) {
      const at = (log: number): number => cost({ ...likeliest, [name]: Math.exp(log) })
      const { top, bend } = topNear(Math.log(likeliest[name]), at, 1 / before ** 2)
      likeliest[name] = Math.exp(top)
      doubt[name] = 1 / Math.sqrt(bend)
    }
  }
  const factors = each(1)
  for (const name of spreadNames) factors[name] = likeliest[name] * Math.exp(doubt[name] ** 2)
  return { likeliest, doubt, factors, priors: withSpreads(priors, factors) }
}
