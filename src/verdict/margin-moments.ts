import { standardAbove } from '../estimate/index.ts'
import { type Grams, grams, type Measured, measured } from '../units/index.ts'
import type { MarginModel, PrinterCovariances } from './margin-model.ts'

const independent: PrinterCovariances = {
  netFeed: 0,
  netStart: 0,
  linearDensityFeed: 0,
  linearDensityStart: 0,
  feedStart: 0,
}

/** Moments of n, of λ and of X, what a draw takes in metres; X is a weighted sum of φ, s and tail. */
export interface Moments {
  readonly net: Measured
  readonly linearDensity: Measured
  readonly used: Measured
  /** cov(n, λ) */
  readonly netLinear: number
  /** cov(n, X) */
  readonly netUsed: number
  /** cov(λ, X) */
  readonly linearUsed: number
}

/** The moments for a draw, with the tail in X when asked; n may be below 0. */
export const momentsAt = (model: MarginModel, draw: number, withTail: boolean): Moments => {
  const { net, linearDensity, covariance, printer, between = independent } = model
  const { feedFactor: phi, startAllowance_mm: start, tail_mm: tail } = printer
  const value = phi.value * draw + start.value + (withTail ? tail.value : 0)
  const apart = Math.hypot(draw * phi.u, start.u, withTail ? tail.u : 0)
  const u = Math.sqrt(Math.max(0, apart ** 2 + 2 * draw * between.feedStart))
  return {
    net,
    linearDensity,
    used: measured(value / 1000, u / 1000),
    netLinear: covariance,
    netUsed: (between.netFeed * draw + between.netStart) / 1000,
    linearUsed: (between.linearDensityFeed * draw + between.linearDensityStart) / 1000,
  }
}

/** Moments given n ≥ 0, and what is needed of the truncated shape. */
export interface GivenSome {
  readonly moments: Moments
  /** How far λ and X move with each standard deviation that n has without the bound. */
  readonly along: readonly [number, number]
  /** Third cumulant of n, in those standard deviations. */
  readonly third: number
  readonly fourth: number
}

/** The moments given n ≥ 0, by the cumulants of the truncated normal. */
export const givenSome = (moments: Moments): GivenSome => {
  const { net, linearDensity, used, netLinear, netUsed, linearUsed } = moments
  if (net.u === 0) return { moments, along: [0, 0], third: 0, fourth: 0 }
  const bound = -net.value / net.u
  const { shift, kept, third, fourth } = standardAbove(bound)
  const [b, d] = [netLinear / net.u, netUsed / net.u]
  const moved = ({ value, u }: Measured, along: number): Measured =>
    measured(value + along * shift, Math.sqrt(Math.max(0, u ** 2 - along ** 2 * (1 - kept))))
  return {
    moments: {
      net: measured(net.value + net.u * shift, net.u * Math.sqrt(kept)),
      linearDensity: moved(linearDensity, b),
      used: moved(used, d),
      netLinear: netLinear * kept,
      netUsed: netUsed * kept,
      linearUsed: linearUsed - b * d * (1 - kept),
    },
    along: [b, d],
    third,
    fourth,
  }
}

/** Variance of λ·X for jointly normal λ and X: exact, by the moments of normals (Isserlis). */
export const productVariance = (a: Measured, b: Measured, covariance: number): number =>
  (a.value * b.u) ** 2 +
  (b.value * a.u) ** 2 +
  (a.u * b.u) ** 2 +
  covariance * (2 * a.value * b.value + covariance)

/** n − λ·X for jointly normal n, λ and X. */
export const remainder = (moments: Moments): Measured<Grams> => {
  const { net, linearDensity, used, netLinear, netUsed, linearUsed } = moments
  const variance =
    net.u ** 2 +
    productVariance(linearDensity, used, linearUsed) -
    2 * used.value * netLinear -
    2 * linearDensity.value * netUsed
  const mean = net.value - linearDensity.value * used.value - linearUsed
  return measured(grams(mean), Math.sqrt(Math.max(0, variance)))
}

/**
 * What the third and fourth cumulant of n, kept above 0, add to the variance of n − λ·X: nothing
 * unless both λ and X hang on n.
 *
 * @param netSpread - standard deviation of n without the bound; 0 for the variance of λ·X alone
 */
export const skewOf = (
  { moments, along: [b, d], third, fourth }: GivenSome,
  netSpread: number,
): number => {
  const both = b * d
  const slope = netSpread - b * moments.used.value - d * moments.linearDensity.value
  return both * (both * fourth - 2 * slope * third)
}

/** The same with some variance more. */
export const widened = ({ value, u }: Measured<Grams>, variance: number): Measured<Grams> =>
  measured(value, Math.sqrt(Math.max(0, u ** 2 + variance)))
