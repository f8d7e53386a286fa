import { formatMass, grams, measured } from '../units/index.ts'
import { reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'

const surprisingFrom = 3

/**
 * What to say where a reel ran dry on which the shelf believes there is more, or less, than its tail.
 *
 * @param fed - mm that the print which it ran dry in fed from it, on top of what is recorded
 * @returns a sentence, or none where it agrees
 */
export const surpriseOfRunDry = (view: ShelfView, reel: string, fed = 0): readonly string[] => {
  const { net, linearDensity } = reelNow(view, reel)
  const { tail, feedFactor } = view.shelf.priors
  const perMm = linearDensity.value / 1000
  const left = net.value - fed * perMm
  const u = Math.hypot(net.u, tail.u * perMm, fed * perMm * feedFactor.u)
  if (Math.abs(left - tail.value * perMm) <= surprisingFrom * u) return []
  const expected = formatMass(measured(grams(Math.max(0, left)), u))
  return [
    `${reel} was believed to hold ${expected} still, and that was taken back. If it was another reel, or a print was not recorded, put this fact right and record that.`,
  ]
}
