import type { Measured } from '../units/index.ts'
import { normalCdf, normalDensity, normalQuantile } from './normal.ts'

/** Nets that stand for all that a net may be, each as likely as the next. */
const nets = 32

/**
 * Density of a reading that is less than what was expected by any mass up to the net, all alike, where
 * the net itself is in doubt: the mean over the net, given that it is not below 0. Of a reel that is
 * nearly empty as much may be missing as it held at best, not as it held on average.
 *
 * @param gross - the reading expected were nothing missing, g, u > 0
 * @param net - of it what may be missing, g, as if it had no bound
 * @param together - covariance of the two, g²
 * @returns 1/g
 */
export const missingDensity = (
  gross: Measured,
  net: Measured,
  together: number,
  reading: number,
): number => {
  if (net.u === 0) return upTo(Math.max(0, net.value), gross, reading)
  const some = normalCdf(net.value / net.u)
  if (some === 0) return upTo(0, gross, reading)
  const along = together / net.u
  // A reading of no error of its own, on a carrier known exactly, still has some width.
  const apart = Math.max(1e-6 * gross.u, Math.sqrt(Math.max(0, gross.u ** 2 - along ** 2)))
  let sum = 0
  for (let i = 0; i < nets; i++) {
    const off = -normalQuantile((some * (i + 0.5)) / nets)
    const given = { value: gross.value + along * off, u: apart }
    sum += upTo(Math.max(0, net.value + net.u * off), given, reading)
  }
  return sum / nets
}

/** Density of a reading that is less by any mass up to one that is known, all alike. */
const upTo = (mass: number, gross: Measured, reading: number): number => {
  const missing = (gross.value - reading) / gross.u
  // Of next to nothing the quotient is a derivative.
  if (mass < 1e-6 * gross.u) return normalDensity(missing) / gross.u
  return Math.max(0, normalCdf(missing) - normalCdf(missing - mass / gross.u)) / mass
}
