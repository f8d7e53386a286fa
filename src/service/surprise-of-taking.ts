import type { DrewJson } from '../contract/index.ts'
import { accept, formatMass, grams, measured, type Outcome, refuse } from '../units/index.ts'
import { type Fed, fedMass } from './fed-from.ts'
import { reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'
import { viewThen } from './view-then.ts'

const surprisingFrom = 3

/** What is said to have come off a reel. */
export interface Taking {
  /** Moment of it. */
  readonly at: string
  /** All that is recorded of it in one go. */
  readonly fed?: readonly Fed[]
  /** Cut off. */
  readonly mass_g?: { readonly value: number; readonly u: number }
  readonly length_mm?: { readonly value: number; readonly u: number }
  /** A surprise is taken all the same. */
  readonly isAccepted?: boolean
}

/**
 * Whether a reel can have given so much: what came off against what is believed to have been on it.
 * Of a reel that ended already, nothing is said: `checkNewFact` refuses more of it.
 *
 * @returns what the facts hold of it: by how much it is more, where that was accepted; or
 *   `drew_more_than_held` beyond 3 standard deviations
 */
export const checkHeld = (
  view: ShelfView,
  reel: string,
  { at, fed = [], mass_g, length_mm, isAccepted = false }: Taking,
): Outcome<Pick<DrewJson, 'accepted_off'>> => {
  const then = viewThen(view, reel, at)
  if (!then.ok) return then
  const state = then.value.cards.get(reel)?.state
  if (state === undefined || state === 'empty' || state === 'retired') return accept({})
  const { net, linearDensity } = reelNow(then.value, reel)
  const perMm = linearDensity.value / 1000
  const off = fedMass(fed, linearDensity, then.value.spreads.priors.feedFactor.u)
  const cut = (length_mm?.value ?? 0) * perMm + (mass_g?.value ?? 0)
  const long = off.length_mm + (length_mm?.value ?? 0)
  const taken = off.mass_g + cut
  const u = Math.hypot(
    off.u_g,
    (long * linearDensity.u) / 1000,
    (length_mm?.u ?? 0) * perMm,
    mass_g?.u ?? 0,
  )
  const deviations = (taken - net.value) / Math.hypot(net.u, u)
  if (!(deviations > surprisingFrom)) return accept({})
  if (isAccepted) return accept({ accepted_off: deviations })
  const expected = formatMass(net)
  const received = formatMass(measured(grams(taken), u))
  const what = fed.length > 0 ? 'this takes' : 'the piece is'
  return refuse({
    code: 'drew_more_than_held',
    message: `Nothing was recorded: ${reel} is believed to hold ${expected} then, and ${what} ${received} (${deviations.toFixed(1)} standard deviations more). Was it another reel, was a refill or a new reel not recorded, or is a unit wrong? If it is so all the same, accept it.`,
    expected,
    received,
  })
}
