import type { MeasuredJson, RanDryJson } from '../contract/index.ts'
import { accept, formatMass, grams, measured, type Outcome, refuse } from '../units/index.ts'
import { type Fed, fedMass } from './fed-from.ts'
import { reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'
import { viewThen } from './view-then.ts'

const surprisingFrom = 3

/** How a reel is said to have run dry. */
export interface RunDry {
  /** Moment of it. */
  readonly at: string
  /** What the prints that it ran dry in fed from it, on top of what is recorded. */
  readonly fed?: readonly Fed[]
  /** What could not be printed, mm; the usual tail unless given. */
  readonly tail_mm?: MeasuredJson
  /** A surprise is taken all the same. */
  readonly isAccepted?: boolean
}

/**
 * Whether a reel can have run dry: what is believed to be on it against the tail.
 *
 * @returns what the fact holds of it: by how much it is off, where that was accepted; or
 *   `run_dry_surprising` beyond 3 standard deviations either way
 */
export const checkRunDry = (
  view: ShelfView,
  reel: string,
  { at, fed = [], tail_mm, isAccepted = false }: RunDry,
): Outcome<Pick<RanDryJson, 'accepted_off'>> => {
  const then = viewThen(view, reel, at)
  if (!then.ok) return then
  const { net, linearDensity } = reelNow(then.value, reel)
  const { tail: usual, feedFactor } = then.value.spreads.priors
  const tail = tail_mm ?? usual
  const perMm = linearDensity.value / 1000
  const off = fedMass(fed, linearDensity, feedFactor.u)
  const left = net.value - off.mass_g
  const u = Math.hypot(net.u, tail.u * perMm, off.u_g, (off.length_mm * linearDensity.u) / 1000)
  const deviations = (left - tail.value * perMm) / u
  if (Math.abs(deviations) <= surprisingFrom) return accept({})
  if (isAccepted) return accept({ accepted_off: deviations })
  const expected = formatMass(measured(grams(left), u))
  return refuse({
    code: 'run_dry_surprising',
    message: `Nothing was recorded: ${reel} is believed to hold ${expected} then, so that it ran dry is surprising (${deviations.toFixed(1)} standard deviations). Was it another reel, or was a print not recorded? If it is so all the same, accept it.`,
    expected,
  })
}
