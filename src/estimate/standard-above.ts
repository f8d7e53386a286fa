import { normalDensity, normalUpperTail } from './normal.ts'

/** Beyond this many standard deviations the density underflows soon; the series does better. */
const far = 30

/** Moments of a standard normal known to lie above a bound. */
export interface StandardAbove {
  /** Its mean. */
  readonly shift: number
  /** Its variance: the share of 1 that is kept. */
  readonly kept: number
}

/**
 * Mean and variance of a standard normal known to lie above a bound.
 *
 * @param bound - any number; far below 0 the normal is hardly touched
 * @see N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate Distributions 1, 13.10
 *   (truncated normal), from memory; closed forms in test/estimate/keep-above.test.ts
 */
export const standardAbove = (bound: number): StandardAbove => {
  if (bound > far) {
    const inverse = bound ** -2
    return { shift: bound + 1 / bound - (2 * inverse) / bound, kept: inverse - 6 * inverse ** 2 }
  }
  const hazard = normalDensity(bound) / normalUpperTail(bound)
  return { shift: hazard, kept: Math.max(0, 1 - hazard * (hazard - bound)) }
}
