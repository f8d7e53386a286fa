import { normalCdf } from '../estimate/index.ts'
import {
  type Grams,
  grams,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import type { MarginModel } from './margin-model.ts'
import {
  givenSome,
  momentsAt,
  productVariance,
  remainder,
  skewOf,
  widened,
} from './margin-moments.ts'

const remainderGivenSome = (
  model: MarginModel,
  draw: number,
  withTail: boolean,
): Measured<Grams> => {
  const given = givenSome(momentsAt(model, draw, withTail))
  return widened(remainder(given.moments), skewOf(given, model.net.u))
}

/**
 * The margin `M = n − λ·(φ·L + s + tail)` of a draw, g, with n, λ, φ and s jointly normal, the tail
 * independent of them, and n not below 0. Mean and variance are exact for these moments. Where n is
 * near 0, M is skewed: for a chance take `chanceAt`.
 *
 * @param draw - L, mm, ≥ 0, as the file asks it
 * @see docs/method/verdict.md, "Margin"
 */
export const marginAt = (model: MarginModel, draw: number): Measured<Grams> =>
  remainderGivenSome(model, draw, true)

/** What is left on the reel after the draw, unprintable tail included, g: `n − λ·(φ·L + s)`. */
export const leftOverAt = (model: MarginModel, draw: number): Measured<Grams> =>
  remainderGivenSome(model, draw, false)

/** What the draw takes off this reel, g: `λ·(φ·L + s)`. */
export const neededAt = (model: MarginModel, draw: number): Measured<Grams> => {
  const given = givenSome(momentsAt(model, draw, false))
  const { linearDensity, used, linearUsed } = given.moments
  const needed = measured(
    grams(linearDensity.value * used.value + linearUsed),
    Math.sqrt(Math.max(0, productVariance(linearDensity, used, linearUsed))),
  )
  return widened(needed, skewOf(given, 0))
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

/**
 * The chance that the reel lasts for a draw, mm. This and `leftOverAt` are what a ranking of many
 * reels needs: no run-dry point is looked for.
 */
export const chanceAt = (model: MarginModel, draw: number): number =>
  chanceGivenNet(remainder(momentsAt(model, draw, true)), model.net)

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
