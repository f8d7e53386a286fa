import type { ReelWoundJson } from '../contract/index.ts'
import {
  type Assumption,
  type JointNormal,
  keepAbove,
  linearDensityOf,
  marginal,
  type Notice,
  netOf,
  type ReelBelief,
  scaled,
  shelfBelief,
  sumOf,
  tareOf,
} from '../estimate/index.ts'
import { daysOf, type ReelCard } from '../ledger/index.ts'
import {
  accept,
  type Grams,
  type GramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type Outcome,
  refuse,
} from '../units/index.ts'
import { type Narrowing, narrowReel } from '../verdict/index.ts'
import {
  besideContradicted,
  type ContradictedWeighing,
  contradictedOfReel,
} from './contradicted.ts'
import { filamentRests } from './filament-rests.ts'
import { rowsOf } from './find-row.ts'
import { isInUse } from './reel-card.ts'
import { type ReelCost, reelCost } from './reel-cost.ts'
import { type ReelWorking, reelWorking } from './reel-working.ts'
import { reelWound } from './reel-wound.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'

/** What is believed of a reel, and on what grounds. */
export interface ReelKnown {
  readonly net: Measured<Grams>
  readonly length: Measured<Millimetres>
  readonly tare: Measured<Grams>
  readonly linearDensity: Measured<GramsPerMetre>
  /** Absent for a moment gone by. */
  readonly working?: ReelWorking
  /** What narrows the length most; absent for a moment gone by, and where nothing does. */
  readonly next?: Narrowing
  /** Its weighing that everything else contradicts; absent for a moment gone by. */
  readonly contradicted?: ContradictedWeighing
  /** What still rests mostly on priors; none for a moment gone by. */
  readonly assumed: readonly Assumption[]
  /** Absent without a price. */
  readonly cost?: ReelCost
  /** Beside that. */
  readonly notices: readonly Notice[]
}

/** A reel and its life. */
export interface ReelStory {
  readonly card: ReelCard
  readonly wound: ReelWoundJson
  /** Absent where its facts can not be reckoned with. */
  readonly known?: ReelKnown
  /** Why not. */
  readonly why?: string
}

/** Moments, as the ledger has them. */
export interface StoryMoments {
  /** The net as it was then. */
  readonly at?: string
  /** By the facts that had been written down then; rows of the catalogue have no history. */
  readonly knownAt?: string
}

/**
 * What there is to know of one reel, now or at a moment gone by.
 *
 * @returns refusals `before_opened`, `not_known_then`, and as `viewOf`
 */
export const reelStory = (
  now: ShelfView,
  reel: string,
  { at, knownAt }: StoryMoments,
): Outcome<ReelStory> => {
  const then = knownAt === undefined ? accept(now) : viewThen(now, knownAt)
  if (!then.ok) return then
  const view = then.value
  const card = view.cards.get(reel)
  if (card === undefined) {
    return refuse({
      code: 'not_known_then',
      message: `Reel ${reel} was not yet written down at that moment.`,
    })
  }
  if (at !== undefined && at < card.openedAt) {
    return refuse({
      code: 'before_opened',
      message: `Reel ${reel} came to the shelf only after that moment.`,
    })
  }
  const wound = reelWound(view, card)
  if (!view.estimate.book.reelAt.has(reel)) {
    const why = view.shelf.left.find(({ id }) => id === card.opened.id)?.why
    return accept({ card, wound, ...(why !== undefined && { why }) })
  }
  const scales = rowsOf(view.rows, 'scale').filter(({ retired }) => retired !== true)
  const belief = shelfBelief(view.estimate, reel, {
    ...(scales.length === 1 && { scale: scales[0]!.id }),
    ...(at !== undefined && { at: daysOf(at) }),
  })
  const [next] = at === undefined && isInUse(card) ? narrowReel(belief, view.spreads.priors) : []
  const notices = at === undefined && isInUse(card) ? belief.notices : []
  const contradicted = contradictedOfReel(view, card, notices)
  const cost = reelCost(view, reel, netOf(belief))
  return accept({
    card,
    wound,
    known: {
      net: netOf(belief),
      length: lengthOf(belief),
      tare: tareOf(belief),
      linearDensity: linearDensityOf(belief),
      ...(at === undefined && { working: workingInFull(view, card, belief) }),
      ...(next && { next }),
      ...(contradicted && { contradicted }),
      assumed: at === undefined ? belief.assumed : [],
      ...(cost && { cost }),
      notices: besideContradicted(notices, contradicted),
    },
  })
}

const viewThen = ({ rows, facts }: ShelfView, knownAt: string): Outcome<ShelfView> =>
  viewOf(
    rows,
    facts.filter(({ recorded_at }) => recorded_at <= knownAt),
    0,
  )

/** With the filament's own figures, which a check has no need of. */
const workingInFull = (view: ShelfView, card: ReelCard, belief: ReelBelief): ReelWorking => {
  const working = reelWorking(view, card, belief)
  return working.rests.length === 0
    ? working
    : { ...working, rests: [...working.rests, ...filamentRests(view, card, belief)] }
}

/** n/λ, to first order about the means. */
const lengthOf = (belief: ReelBelief): Measured<Millimetres> => {
  const { net, linearDensity } = belief
  const { value: n } = netOf(belief)
  const { value: perMetre } = linearDensityOf(belief)
  const kept: JointNormal = keepAbove(belief.joint, net, 0)
  const form = sumOf(
    scaled(net, 1000 / perMetre),
    scaled(linearDensity, (-1000 * n) / perMetre ** 2),
  )
  return measured(millimetres((1000 * n) / perMetre), marginal(kept, form).u)
}
