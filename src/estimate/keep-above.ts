import { type JointNormal, type LinearForm, marginal, spreadOfForm } from './joint-normal.ts'
import { normalDensity, normalUpperTail } from './normal.ts'

/** Beyond this many standard deviations above the bound nothing changes to a double's precision. */
const farAbove = 8
/** Beyond this many below it the density underflows soon; two terms of the series do better. */
const farBelow = 30

/**
 * The joint given that a weighted sum of its unknowns is not below a bound, as the normal with the
 * same mean and covariance: exact moments of the truncated normal, its shape given up.
 *
 * @param bound - in the form's unit
 * @see N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate Distributions 1, 13.10
 *   (truncated normal), from memory; closed forms in test/estimate/keep-above.test.ts
 */
export const keepAbove = (joint: JointNormal, form: LinearForm, bound: number): JointNormal => {
  const { value, u } = marginal(joint, form)
  if (u === 0 || value - bound > farAbove * u) return joint
  const alpha = (bound - value) / u
  const { shift, kept } = truncated(alpha)
  const spread = spreadOfForm(joint, form)
  const size = spread.length
  const mean = joint.mean.map((m, i) => m + (spread[i]! / u) * shift)
  const covariance = joint.covariance.map((c, place) => {
    const [i, j] = [Math.floor(place / size), place % size]
    return c - ((spread[i]! * spread[j]!) / u ** 2) * (1 - kept)
  })
  return { names: joint.names, mean, covariance }
}

/** Mean, and variance, of a standard normal known to lie above alpha. */
const truncated = (alpha: number): { readonly shift: number; readonly kept: number } => {
  if (alpha > farBelow) {
    const inverse = alpha ** -2
    return { shift: alpha + 1 / alpha - (2 * inverse) / alpha, kept: inverse - 6 * inverse ** 2 }
  }
  const hazard = normalDensity(alpha) / normalUpperTail(alpha)
  return { shift: hazard, kept: Math.max(0, 1 - hazard * (hazard - alpha)) }
}
