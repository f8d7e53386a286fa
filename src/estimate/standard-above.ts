import { normalDensity, normalUpperTail } from './normal.ts'

/** Beyond this many standard deviations the density underflows soon; the series does better. */
const far = 30

/** Moments of a standard normal known to lie above a bound. */
export interface StandardAbove {
  /** Its mean. */
  readonly shift: number
  /** Its variance: the share of 1 that is kept. */
  readonly kept: number
  /** Its third cumulant. */
  readonly third: number
  /** Its fourth cumulant. */
  readonly fourth: number
}

/**
 * The first four cumulants of a standard normal known to lie above a bound α. With h the hazard at α they
 * are h, 1 − h′, h″ and −h‴, where h′ = h·(h − α); far out, where those differences would lose every digit,
 * they are the first two terms of their series in 1/α.
 *
 * @param bound - any number; far below 0 the normal is hardly touched
 * @see N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate Distributions 1, 13.10
 *   (truncated normal), from memory; closed forms in test/estimate/keep-above.test.ts
 */
export const standardAbove = (bound: number): StandardAbove => {
  if (bound > far) {
    const inverse = bound ** -2
    return {
      shift: bound + 1 / bound - (2 * inverse) / bound,
      kept: inverse - 6 * inverse ** 2,
      third: (2 * inverse - 24 * inverse ** 2) / bound,
      fourth: 6 * inverse ** 2 - 120 * inverse ** 3,
    }
  }
  const shift = normalDensity(bound) / normalUpperTail(bound)
  const kept = Math.max(0, 1 - shift * (shift - bound))
  const third = (1 - kept) * (2 * shift - bound) - shift
  return { shift, kept, third, fourth: 2 * (1 - kept) * kept - third * (2 * shift - bound) }
}
