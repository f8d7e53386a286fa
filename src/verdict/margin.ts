import {
  covarianceOf,
  marginal,
  normalCdf,
  type ReelBelief,
  standardAbove,
} from '../estimate/index.ts'
import {
  type Grams,
  grams,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import type { Printer } from './printer.ts'

/**
 * What decides the margin of any draw from one reel on one printer. Net mass and linear density are
 * jointly normal as the facts alone have them; that n is not below 0 comes in with each result.
 */
export interface MarginModel {
  /** n, g. */
  readonly net: Measured
  /** λ, g/m. */
  readonly linearDensity: Measured
  /** cov(n, λ), g²/m. */
  readonly covariance: number
  readonly printer: Printer
}

/** Collects what the margin needs from a belief. */
export const marginModel = (belief: ReelBelief, printer: Printer): MarginModel => ({
  net: marginal(belief.joint, belief.net),
  linearDensity: marginal(belief.joint, belief.linearDensity),
  covariance: covarianceOf(belief.joint, belief.net, belief.linearDensity),
  printer,
})

/** The same with the moments that net mass and linear density have given n ≥ 0. */
const notBelowNothing = (model: MarginModel): MarginModel => {
  const { net, linearDensity, covariance } = model
  if (net.u === 0) return model
  const { shift, kept } = standardAbove(-net.value / net.u)
  const along = covariance / net.u
  const rest = linearDensity.u ** 2 - along ** 2 * (1 - kept)
  return {
    ...model,
    net: measured(net.value + net.u * shift, net.u * Math.sqrt(kept)),
    linearDensity: measured(linearDensity.value + along * shift, Math.sqrt(Math.max(0, rest))),
    covariance: covariance * kept,
  }
}

/** φ·L + s, plus the tail when asked, in metres. */
const metresUsed = ({ printer }: MarginModel, draw: number, withTail: boolean): Measured => {
  const { feedFactor: phi, startAllowance_mm: start, tail_mm: tail } = printer
  const value = phi.value * draw + start.value + (withTail ? tail.value : 0)
  return measured(value / 1000, Math.hypot(draw * phi.u, start.u, withTail ? tail.u : 0) / 1000)
}

/** Variance of λ·X for independent λ and X: exact, with the product term. */
const productVariance = (a: Measured, b: Measured): number =>
  (a.value * b.u) ** 2 + (b.value * a.u) ** 2 + (a.u * b.u) ** 2

const remainder = (model: MarginModel, draw: number, withTail: boolean): Measured<Grams> => {
  const { net, linearDensity, covariance } = model
  const used = metresUsed(model, draw, withTail)
  const variance = net.u ** 2 + productVariance(linearDensity, used) - 2 * used.value * covariance
  const mean = net.value - linearDensity.value * used.value
  return measured(grams(mean), Math.sqrt(Math.max(0, variance)))
}

/**
 * The margin `M = n − λ·(φ·L + s + tail)` of a draw, g: net and linear density jointly normal,
 * feed factor, start allowance and tail independent of them and of each other, and n not below 0.
 * Mean and variance are exact for these moments. Where n is near 0, M is skewed: for a chance take
 * `chanceAt`.
 *
 * @param draw - L, mm, ≥ 0, as the file asks it
 * @see docs/method/verdict.md, "Margin"
 */
export const marginAt = (model: MarginModel, draw: number): Measured<Grams> =>
  remainder(notBelowNothing(model), draw, true)

/** What is left on the reel after the draw, unprintable tail included, g: `n − λ·(φ·L + s)`. */
export const leftOverAt = (model: MarginModel, draw: number): Measured<Grams> =>
  remainder(notBelowNothing(model), draw, false)

/** What the draw takes off this reel, g: `λ·(φ·L + s)`. */
export const neededAt = (model: MarginModel, draw: number): Measured<Grams> => {
  const used = metresUsed(model, draw, false)
  const { linearDensity } = notBelowNothing(model)
  return measured(
    grams(linearDensity.value * used.value),
    Math.sqrt(productVariance(linearDensity, used)),
  )
}

/** P(M > 0) for a normal margin; with u = 0 it is 1 above zero and 0 at zero and below. */
export const chanceOf = ({ value, u }: Measured): number =>
  u === 0 ? Number(value > 0) : normalCdf(value / u)

/**
 * P(M > 0 | n > 0): what is used is never negative, so M > 0 is a part of n > 0, and the chance is
 * the quotient of the two.
 *
 * @param margin - M, normal, as if n had no bound
 * @param net - n, in the same way
 */
export const chanceGivenNet = (margin: Measured, net: Measured): number => {
  const some = chanceOf(net)
  return some === 0 ? 0 : Math.min(1, chanceOf(margin) / some)
}

/** The chance that the reel lasts for a draw, mm. */
export const chanceAt = (model: MarginModel, draw: number): number =>
  chanceGivenNet(remainder(model, draw, true), model.net)

/** Longer than any reel, mm; a limit beyond it is no limit. */
const endless = 1e10

/**
 * The draw, mm, that the reel lasts for with the chance given: the available length's limit. The
 * pair of limits at 1−α/2 and α/2 is Fieller's interval for n/λ when the printer is exact.
 *
 * @param chance - between 0 and 1, exclusive
 * @returns ≥ 0; 0 when not even the start is that sure; ∞ when no draw is too long to be that sure,
 *   which needs a linear density known worse than its own size
 * @see E. C. Fieller, J. R. Statist. Soc. B 16 (1954) 175–185
 */
export const drawWithChance = (model: MarginModel, chance: number): number => {
  if (chanceAt(model, 0) <= chance) return 0
  let low = 0
  let high = 1000
  while (chanceAt(model, high) > chance) {
    low = high
    high *= 2
    if (high > endless) return Infinity
  }
  // Sixty halvings leave less than a double can tell apart.
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (chanceAt(model, middle) > chance) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * The length that can still be printed, mm: its median, and as uncertainty half the distance
 * between the limits one standard deviation to either side.
 */
export const availableDraw = (model: MarginModel): Measured<Millimetres> => {
  const half = (drawWithChance(model, oneBelow) - drawWithChance(model, oneAbove)) / 2
  return measured(millimetres(drawWithChance(model, 0.5)), half)
}

const oneBelow = normalCdf(-1)
const oneAbove = normalCdf(1)
