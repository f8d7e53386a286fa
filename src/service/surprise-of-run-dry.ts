import type { RanDryJson } from '../contract/index.ts'
import { accept, formatMass, grams, measured, type Outcome, refuse } from '../units/index.ts'
import { reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'

const surprisingFrom = 3

/**
 * Whether a reel can have run dry: what is believed to be on it against the tail.
 *
 * @param fed - mm that the print which it ran dry in fed from it, on top of what is recorded
 * @param isAccepted - a surprise is taken all the same
 * @returns what the fact holds of it: by how much it is off, where that was accepted; or
 *   `run_dry_surprising` beyond 3 standard deviations either way
 */
export const checkRunDry = (
  view: ShelfView,
  reel: string,
  { fed = 0, isAccepted = false }: { readonly fed?: number; readonly isAccepted?: boolean },
): Outcome<Pick<RanDryJson, 'accepted_off'>> => {
  const { net, linearDensity } = reelNow(view, reel)
  const { tail, feedFactor } = view.shelf.priors
  const perMm = linearDensity.value / 1000
  const left = net.value - fed * perMm
  const u = Math.hypot(net.u, tail.u * perMm, fed * perMm * feedFactor.u)
  const off = (left - tail.value * perMm) / u
  if (Math.abs(off) <= surprisingFrom) return accept({})
  if (isAccepted) return accept({ accepted_off: off })
  const expected = formatMass(measured(grams(left), u))
  return refuse({
    code: 'run_dry_surprising',
    message: `Nothing was recorded: ${reel} is believed to hold ${expected} then, so that it ran dry is surprising (${off.toFixed(1)} standard deviations). Was it another reel, or was a print not recorded? If it is as it is, repeat with --accept.`,
    expected,
  })
}
