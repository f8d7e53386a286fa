import type { Prior } from './priors.ts'
import { factorise, inverseFromFactor } from './shelf-cholesky.ts'
import { estimateShelf, type ShelfEstimate, withPriors } from './shelf-estimate.ts'
import { defaultShelfPriors, type ShelfPriors } from './shelf-priors.ts'
import { type StandIn, standInsOf } from './stand-in.ts'

/*
 * How much makes, reels, printers and prints differ from each other is a guess before it is seen, and
 * every chance rests on it. Each guess is multiplied by a factor f that is learnt: ln f is normal, f more
 * often above 1 than below, and the readings of the shelf weigh it by their own density under the model,
 * everything unknown integrated out (`SharedPosterior.misfit`). A spread that is known to a factor only is worth a wider one
 * than its likeliest: into the priors goes the one whose normal has the 95 % point of the mixture over f,
 * for that is where calls are made. √(mean of f²) would have its variance, but be too wide up to there.
 */

/** The spreads that are learnt, each by a factor of its own. */
export const spreadNames = [
  'tare',
  'carrier',
  'overfill',
  'linearDensity',
  'feedFactor',
  'feedOfOneDraw',
  'start',
  'scale',
] as const

/** For each spread a factor, > 0; 1 leaves it as the priors have it. */
export type SpreadFactors = Readonly<Record<SpreadName, number>>

/** One of the spreads. */
export type SpreadName = (typeof spreadNames)[number]

/** The spread that a prior stands for; priors that are not here are taken as they are. */
export const spreadOfPrior: Readonly<Partial<Record<keyof ShelfPriors, SpreadName>>> = {
  unknownTare: 'tare',
  carrierKinds: 'tare',
  carrierOfOneMake: 'carrier',
  overfill: 'overfill',
  overfillOfOneMake: 'overfill',
  diameterOffset: 'linearDensity',
  reelAboutMake: 'linearDensity',
  densityOfOneMake: 'linearDensity',
  densityOverTable: 'linearDensity',
  feedFactor: 'feedFactor',
  feedOfOneDraw: 'feedOfOneDraw',
  startAllowance: 'start',
  startOfOneDraw: 'start',
  scaleOverStated: 'scale',
}

const each = (value: number): Record<SpreadName, number> => ({
  tare: value,
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
  const { tare, carrier, overfill, linearDensity, feedFactor, feedOfOneDraw, start, scale } =
    factors
  const ofDraw = times(priors.feedOfOneDraw, feedOfOneDraw)
  const ofPrinter = Math.max(0, priors.feedFactor.u ** 2 - priors.feedOfOneDraw.u ** 2)
  return {
    ...priors,
    unknownTare: priors.unknownTare.map((of) => ({ ...of, tare: times(of.tare, tare) })),
    carrierKinds: timesKinds(priors.carrierKinds, tare),
    carrierOfOneMake: times(priors.carrierOfOneMake, carrier),
    overfill: times(priors.overfill, overfill),
    overfillOfOneMake: times(priors.overfillOfOneMake, overfill),
    diameterOffset: times(priors.diameterOffset, linearDensity),
    reelAboutMake: times(priors.reelAboutMake, linearDensity),
    densityOfOneMake: times(priors.densityOfOneMake, linearDensity),
    densityOverTable: {
      ...priors.densityOverTable,
      value: priors.densityOverTable.value * linearDensity,
    },
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

const timesKinds = (
  kinds: ShelfPriors['carrierKinds'],
  factor: number,
): ShelfPriors['carrierKinds'] => ({
  plastic: times(kinds.plastic, factor),
  cardboard: times(kinds.cardboard, factor),
  'refill-core': times(kinds['refill-core'], factor),
  metal: times(kinds.metal, factor),
})

const times = (prior: Prior, factor: number): Prior => ({ ...prior, u: prior.u * factor })

const allTimes = (factors: SpreadFactors, by: number): SpreadFactors => {
  const all = each(by)
  for (const name of spreadNames) all[name] *= factors[name]
  return all
}

/** What is learnt of the spreads. */
export interface LearntSpreads {
  /** The likeliest factor of each. */
  readonly likeliest: SpreadFactors
  /** Standard deviation of its logarithm. */
  readonly doubt: SpreadFactors
  /** Whether its own readings tell anything of it; where not, it is what the others make of it. */
  readonly told: Readonly<Record<SpreadName, boolean>>
  /** What stands for the doubt: `likeliest`·exp(¾·doubt²). */
  readonly factors: SpreadFactors
  /** The priors with these factors in them: what an estimate should be made with. */
  readonly priors: ShelfPriors
  /** Priors that stand for all that the spreads may be: 16 at most, none where nothing is in doubt. */
  readonly standIns: readonly StandIn<ShelfPriors>[]
}

/**
 * The median of each f beforehand. People guess spreads too small: of intervals that are to hold the truth
 * half the time, those of trained assessors held it 44 times in a hundred. With the doubt of f such an
 * interval holds it so often if the median of f is this.
 *
 * @see docs/method/shelf.md, "Spreads", for the sources and the reckoning
 */
export const medianSpread: SpreadFactors = { ...each(1.3), tare: 1.2 }

/** How to learn. */
export interface SpreadOptions {
  /** Those that the factors multiply: `defaultShelfPriors` unless given. */
  readonly priors?: ShelfPriors
  /**
   * Standard deviation of ln f beforehand: ln 2 unless given. The guesses are round numbers of common
   * practice, two in three of which may be right to a factor of two once they are taken wider by
   * `medianSpread`.
   */
  readonly doubt?: number
  /** Where to start: `medianSpread` unless given, or what was learnt last time. */
  readonly from?: SpreadFactors
  /** How often to go through all factors. */
  readonly sweeps?: number
  /** How many reels to learn from: those with most facts. Beyond a hundred nothing much is gained. */
  readonly mostReels?: number
}

/**
 * The normal with exp(¾·u²) times the likeliest spread has the 95 % point of a normal whose spread is
 * log-normal with the standard deviation u: computed for u from 0.2 to 0.7, ¾ to 0.85.
 */
const widening = 0.75

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

/** What is believed of all ln f together before anything is seen: jointly normal about ln `medianSpread`. */
interface DoubtBeforehand {
  /** −ln of the density, less a constant. */
  readonly cost: (factors: SpreadFactors) => number
  /** Its curvature along one ln f. */
  readonly alone: SpreadFactors
  /** Its curvature where all ln f move together. */
  readonly inCommon: number
  /** Covariance of all ln f, where the readings bend their density by so much: row-major. */
  readonly leftBy: (bends: SpreadFactors) => Float64Array
}

/** Of the variance of ln f: what all have in common. Who guesses one spread too small does so with others. */
const shareInCommon = 0.5

/** What makes weigh empty is the best known of the guesses: two in three are right to a factor of √2. */
const doubtOf = (name: SpreadName, doubt: number): number => (name === 'tare' ? doubt / 2 : doubt)

/** Own readings tell of a spread where by themselves they bend its density by this share of what the guess does. */
const tells = 0.04

const toldBy = (bends: SpreadFactors, doubt: number): Record<SpreadName, boolean> => {
  const isTold = (name: SpreadName): boolean => bends[name] > tells / doubtOf(name, doubt) ** 2
  return {
    tare: isTold('tare'),
    carrier: isTold('carrier'),
    overfill: isTold('overfill'),
    linearDensity: isTold('linearDensity'),
    feedFactor: isTold('feedFactor'),
    feedOfOneDraw: isTold('feedOfOneDraw'),
    start: isTold('start'),
    scale: isTold('scale'),
  }
}

const named = (of: (i: number) => number): SpreadFactors => {
  const all = each(0)
  for (const [i, name] of spreadNames.entries()) all[name] = of(i)
  return all
}

const doubtBeforehand = (doubt: number): DoubtBeforehand => {
  const share = shareInCommon
  const size = spreadNames.length
  const own = spreadNames.map((name) => doubtOf(name, doubt))
  // The correlations (1 − share)·I + share·1·1ᵀ are inverted in closed form.
  const across = share / (1 + (size - 1) * share)
  const precision = (i: number, j: number): number =>
    ((i === j ? 1 : 0) - across) / (1 - share) / (own[i]! * own[j]!)
  const places = spreadNames.map((_, i) => i)
  const sumOf = (logs: readonly number[]): number =>
    places.reduce(
      (sum, i) => sum + places.reduce((row, j) => row + precision(i, j) * logs[i]! * logs[j]!, 0),
      0,
    )
  return {
    cost: (factors) =>
      sumOf(spreadNames.map((name) => Math.log(factors[name] / medianSpread[name]))) / 2,
    alone: named((i) => precision(i, i)),
    inCommon: sumOf(places.map(() => 1)),
    leftBy: (bends) => {
      const matrix = Float64Array.from({ length: size * size }, (_, place) => {
        const [i, j] = [Math.floor(place / size), place % size]
        return precision(i, j) + (i === j ? bends[spreadNames[i]!] : 0)
      })
      factorise(matrix, size)
      return inverseFromFactor(matrix, size)
    },
  }
}

/** Of more facts sixteen estimates would take seconds; spreads are then doubted as one normal. */
const mostFacts = 100_000

const factCount = ({ reelFacts, makeFacts }: ShelfEstimate): number =>
  [...reelFacts, ...makeFacts].reduce((sum, { length }) => sum + length, 0)

/** A spread known to this standard deviation of ln f is taken as known: no chance moves by half a point. */
const known = 0.15

/**
 * Sets of factors that together have the mean and the covariance given of all ln f and no skewness: the
 * corners ± of a Hadamard matrix, times the factor of that covariance. The mean over them of anything is
 * exact as far as it is a polynomial of third degree in ln f. All are as far from the top.
 *
 * @param covariance - of all ln f, row-major
 * @returns 16 at most, fewer where few factors are in doubt, none where none is
 * @see A. H. Stroud, Approximate Calculation of Multiple Integrals (1971), from memory
 */
const cornersAbout = (
  likeliest: SpreadFactors,
  covariance: Float64Array,
): readonly SpreadFactors[] => {
  const all = spreadNames.length
  const doubted = spreadNames.flatMap((_, i) => (covariance[i * (all + 1)]! > known ** 2 ? i : []))
  const size = doubted.length
  if (size === 0) return []
  const factor = Float64Array.from(
    doubted.flatMap((i) => doubted.map((j) => covariance[i * all + j]!)),
  )
  factorise(factor, size)
  const rows = 2 ** Math.ceil(Math.log2(size))
  return [1, -1].flatMap((side) =>
    Array.from({ length: rows }, (_, row) => {
      const moved = { ...likeliest }
      for (const [i, place] of doubted.entries()) {
        let log = 0
        for (let j = 0; j <= i; j++) log += factor[i * size + j]! * side * hadamard(row, j)
        moved[spreadNames[place]!] *= Math.exp(log)
      }
      return moved
    }),
  )
}

/**
 * Corners that a normal about the top has as equally likely, each weighed by the density it truly has:
 * towards wider spreads it falls off more slowly.
 *
 * @param cost - −ln of the density
 */
const weighed = (
  corners: readonly SpreadFactors[],
  cost: (factors: SpreadFactors) => number,
): readonly StandIn<SpreadFactors>[] => {
  const costs = corners.map(cost)
  const least = Math.min(...costs)
  const weights = costs.map((own) => Math.exp(least - own))
  const all = weights.reduce((sum, weight) => sum + weight, 0)
  return corners.map((of, i) => ({ weight: weights[i]! / all, of }))
}

/** Of Sylvester's matrices: −1 where the two places have an odd number of binary digits 1 in common. */
const hadamard = (row: number, column: number): 1 | -1 => {
  let sign: 1 | -1 = 1
  for (let common = row & column; common > 0; common &= common - 1) sign = sign === 1 ? -1 : 1
  return sign
}

/**
 * Learns the spreads of the priors from the shelf itself.
 *
 * One factor after the other moves to where the density has its top, as a parabola through three points
 * near it has it; the curvature is never taken as less than that of the prior. With eight factors and two
 * sweeps that is 54 single rounds of the estimate over at most `mostReels` reels, and one for each step
 * of 0.4 in ln f that a top is away.
 *
 * @param estimate - whose facts to learn from, and about whose point to expand products; the priors it
 *   was made with do not matter
 * @returns where nothing tells of a spread: likeliest `medianSpread`, and the doubt of the prior
 * @throws DomainError as `estimateShelf`
 * @see docs/method/shelf.md, "Spreads"
 */
export const learnSpreads = (
  estimate: ShelfEstimate,
  {
    priors = defaultShelfPriors,
    doubt: before = Math.LN2,
    from = medianSpread,
    sweeps = 2,
    mostReels = 100,
  }: SpreadOptions = {},
): LearntSpreads => {
  let last = toldMost(estimate, mostReels)
  /** −ln of the density of readings and factors, less a constant. */
  const cost = (factors: SpreadFactors): number => {
    // Where tapes stay as they are, as with most factors, they are not written anew.
    last = withPriors(last, withSpreads(priors, factors))
    return last.shared.misfit / 2 + prior.cost(factors)
  }
  const prior = doubtBeforehand(before)
  const likeliest: Record<SpreadName, number> = { ...from }
  const bends = each(0)
  for (let sweep = 0; sweep < sweeps; sweep++) {
    const together = (log: number): SpreadFactors => allTimes(likeliest, Math.exp(log))
    const { top: all } = topNear(0, (log) => cost(together(log)), prior.inCommon)
    Object.assign(likeliest, together(all))
    for (const name of spreadNames) {
      const at = (log: number): number => cost({ ...likeliest, [name]: Math.exp(log) })
      const { top, bend } = topNear(Math.log(likeliest[name]), at, prior.alone[name])
      likeliest[name] = Math.exp(top)
      bends[name] = bend - prior.alone[name]
    }
  }
  const left = prior.leftBy(bends)
  const corners = factCount(estimate) > mostFacts ? [] : cornersAbout(likeliest, left)
  const doubt = named((i) => Math.sqrt(left[i * (spreadNames.length + 1)]!))
  const factors = each(1)
  for (const name of spreadNames)
    factors[name] = likeliest[name] * Math.exp(widening * doubt[name] ** 2)
  return {
    likeliest,
    doubt,
    told: toldBy(bends, before),
    factors,
    priors: withSpreads(priors, factors),
    standIns: standInsOf(weighed(corners, cost), (one) => withSpreads(priors, one)),
  }
}

/**
 * The part of a shelf that is learnt from: the reels with most facts and the makes that anything is told
 * of. The others add nothing to the density of the readings, and every round would pay for them.
 */
const toldMost = (
  { book, point, reelFacts, makeFacts }: ShelfEstimate,
  mostReels: number,
): ShelfEstimate => {
  const reels = [...reelFacts.keys()]
    .filter((reel) => reelFacts[reel]!.length > 0)
    .toSorted((a, b) => reelFacts[b]!.length - reelFacts[a]!.length)
    .slice(0, mostReels)
  const ofReels = new Set(reels.map((reel) => book.makeOfReel[reel]!))
  const makes = [...makeFacts.keys()].filter(
    (make) => ofReels.has(make) || makeFacts[make]!.length > 0,
  )
  const { catalogue, priors } = book
  const told = {
    ...catalogue,
    reels: reels.map((reel) => catalogue.reels[reel]!),
    makes: makes.map((make) => catalogue.makes[make]!),
  }
  const facts = [
    ...reels.map((reel) => reelFacts[reel]!),
    ...makes.map((make) => makeFacts[make]!),
  ].flat()
  const about = {
    core: point.core,
    linearDensity: Float64Array.from(reels, (reel) => point.linearDensity[reel]!),
    make: makes.map((make) => point.make[make]!),
  }
  return estimateShelf(told, facts, { priors, rounds: 1, about })
}
