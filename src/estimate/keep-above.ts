import { type JointNormal, type LinearForm, marginal, spreadOfForm } from './joint-normal.ts'
import { standardAbove } from './standard-above.ts'

/** Beyond this many standard deviations above the bound nothing changes to a double's precision. */
const farAbove = 8

/**
 * The joint given that a weighted sum of its unknowns is not below a bound, as the normal with the
 * same mean and covariance: exact moments of the truncated normal, its shape given up.
 *
 * @param bound - in the form's unit
 */
export const keepAbove = (joint: JointNormal, form: LinearForm, bound: number): JointNormal => {
  const { value, u } = marginal(joint, form)
  if (u === 0 || value - bound > farAbove * u) return joint
  const alpha = (bound - value) / u
  const { shift, kept } = standardAbove(alpha)
  const spread = spreadOfForm(joint, form)
  const size = spread.length
  const mean = joint.mean.map((m, i) => m + (spread[i]! / u) * shift)
  const covariance = joint.covariance.map((c, place) => {
    const [i, j] = [Math.floor(place / size), place % size]
    return c - ((spread[i]! * spread[j]!) / u ** 2) * (1 - kept)
  })
  return { names: joint.names, mean, covariance }
}
