import { normalCdf, type StandIn, standInsOf } from '../estimate/index.ts'
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

/** A margin and the net it is of, both normal as if the net had no bound. */
export interface MarginOfNet {
  readonly margin: Measured
  readonly net: Measured
}

/**
 * P(M > 0 | n > 0): what is used is never negative, so M > 0 is a part of n > 0, and the chance is
 * the quotient of the two.
 *
 * @param standIns - all that the two may be; a single one where they are known
 */
export const chanceGivenNet = (standIns: readonly StandIn<MarginOfNet>[]): number => {
  let lasts = 0
  let some = 0
  for (const { weight, of } of standIns) {
    lasts += weight * chanceOf(of.margin)
    some += weight * chanceOf(of.net)
  }
  return some === 0 ? 0 : Math.min(1, lasts / some)
}

/**
 * The chance that the reel lasts for a draw, mm: that over the model's stand-ins. This and `leftOverAt` are what a ranking of many
 * reels needs: no run-dry point is looked for.
 */
export const chanceAt = (model: MarginModel, draw: number): number =>
  chanceGivenNet(
    standInsOf(model.standIns ?? [{ weight: 1, of: model }], (one) => ({
      margin: remainder(momentsAt(one, draw, true)),
      net: one.net,
    })),
  )

/**
 * The chance that anything is on the reel, as the facts alone have it: what they leave below nothing counts
 * as empty. `chanceAt` takes it that something is.
 */
export const chanceOfSome = (model: MarginModel): number => {
  let some = 0
  let all = 0
  for (const { weight, of } of model.standIns ?? [{ weight: 1, of: model }]) {
    some += weight * chanceOf(of.net)
    all += weight
  }
  return some / all
}

/** Longer than any reel, mm; a limit beyond it is no limit. */
const endless = 1e10
/** A share of a length that nobody tells apart. */
const finest = 1e-13

/**
 * The draw, mm, that the reel lasts for with the chance given: the available length's limit. The
 * pair of limits at 1−α/2 and α/2 is Fieller's interval for n/λ when the printer is exact.
 *
 * @param chance - between 0 and 1, exclusive
 * @returns ≥ 0; 0 when not even the start is that sure; ∞ when no draw is too long to be that sure,
 *   which needs a linear density known worse than its own size
 * @see C. F. J. Ridders, IEEE Trans. Circuits Syst. 26 (1979) 979–980, from memory
 * @see E. C. Fieller, J. R. Statist. Soc. B 16 (1954) 175–185
 */
export const drawWithChance = (model: MarginModel, chance: number): number => {
  const over = (draw: number): number => chanceAt(model, draw) - chance
  let [low, atLow] = [0, over(0)]
  if (atLow <= 0) return 0
  // About where the reel ends, by which the search begins with an end to either side.
  let high = Math.max(1000, (1000 * model.net.value) / model.linearDensity.value)
  let atHigh = over(high)
  while (atHigh > 0) {
    ;[low, atLow] = [high, atHigh]
    high *= 2
    if (high > endless) return Infinity
    atHigh = over(high)
  }
  // Ridders's method: never worse than halving, and most often done in six rounds.
  let last = Infinity
  for (let i = 0; i < 60 && high - low > finest * high; i++) {
    const middle = (low + high) / 2
    const atMiddle = over(middle)
    const bent = Math.sqrt(atMiddle ** 2 - atLow * atHigh)
    const nearer = bent === 0 ? middle : middle + ((middle - low) * atMiddle) / bent
    const atNearer = over(nearer)
    for (const [draw, at] of [
      [middle, atMiddle],
      [nearer, atNearer],
    ] as const) {
      if (at > 0 && draw > low) [low, atLow] = [draw, at]
      else if (at <= 0 && draw < high) [high, atHigh] = [draw, at]
    }
    if (atNearer === 0 || Math.abs(nearer - last) <= finest * nearer) return nearer
    last = nearer
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
