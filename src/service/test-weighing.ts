import type {
  CarrierWeighedJson,
  CatalogueRowJson,
  FactJson,
  WeighedJson,
} from '../contract/index.ts'
import {
  carrierSurprise,
  type WeighingSurprise,
  weighingSurprise,
  withoutFacts,
} from '../estimate/index.ts'
import { accept, measured, type Outcome } from '../units/index.ts'
import { atFaultFor, type ContradictedWeighing } from './contradicted.ts'
import { reelNow } from './reel-now.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'

/** How a weighing lies to what was expected. */
export interface WeighingTest {
  readonly surprise: WeighingSurprise
  /** Where it surprises: earlier weighings without any one of which it would not, the farthest off first. */
  readonly atFault: readonly ContradictedWeighing[]
}

/**
 * A weighing against what the shelf predicts, before it is written down.
 *
 * @param rows - new ones that it needs: its scale, its reel's make
 * @param facts - new ones that come before it: the reel's opening, a put-right
 */
export const testWeighing = (
  view: ShelfView,
  weighing: WeighedJson | CarrierWeighedJson,
  rows: readonly CatalogueRowJson[] = [],
  facts: readonly FactJson[] = [],
): Outcome<WeighingTest> => {
  const before =
    rows.length + facts.length === 0
      ? accept(view)
      : viewOf([...view.rows, ...rows], [...view.facts, ...facts], -1, view.spreads)
  if (!before.ok) return before
  const { estimate } = before.value
  // The translation is the ledger's: the fact is looked up in a shelf that has it already.
  const after = viewOf(before.value.rows, [...before.value.facts, weighing], -1, view.spreads)
  if (!after.ok) return after
  const seen = after.value.shelf.facts.find(({ id }) => id === weighing.id)
  if (seen?.kind === 'carrier-weighed') {
    // The first carrier of a size brings a make of its own into the estimate.
    const expecting = estimate.book.makeAt.has(seen.make)
      ? estimate
      : withoutFacts(after.value.estimate, [seen.id])
    return accept({ surprise: carrierSurprise(expecting, seen), atFault: [] })
  }
  if (weighing.kind !== 'weighed' || seen?.kind !== 'weighed')
    return accept({ surprise: nothingToSay(weighing), atFault: [] })
  const told = weighingSurprise(estimate, seen)
  const surprise = told.surprising
    ? told
    : (aboveLabel(before.value, after.value, weighing) ?? told)
  const atFault = surprise.surprising ? atFaultFor(before.value, seen) : []
  return accept({ surprise, atFault })
}

const surprisingFrom = 3

/**
 * The first weighing of a reel that came part-used, where it puts more on it than its label: nothing else says
 * what may be on it.
 */
const aboveLabel = (
  before: ShelfView,
  after: ShelfView,
  { id, reel, weighing: { reading_g } }: WeighedJson,
): WeighingSurprise | undefined => {
  const opened = after.cards.get(reel)?.opened
  const make = after.shelf.catalogue.makes.find((one) => one.id === opened?.make)
  const label = opened?.label_net_g ?? make?.labelNet
  if (opened?.part_used !== true || label === undefined) return undefined
  const isKnown = before.standing.facts.some(
    (fact) => fact.kind === 'weighed' && fact.reel === reel && fact.id !== id,
  )
  if (isKnown) return undefined
  const { overfill } = after.spreads.priors
  const { net } = reelNow(after, reel)
  const innovation = net.value - label * overfill.value
  const u = Math.hypot(net.u, label * overfill.u)
  const off = innovation / u
  if (!(off > surprisingFrom)) return undefined
  const predicted = measured(reading_g - innovation, u)
  return { predicted, innovation, off, surprising: true, unrecorded: false, causes: [] }
}

/** Of a weighing that the estimate does not take, nothing can be predicted. */
const nothingToSay = ({
  weighing: { reading_g },
}: WeighedJson | CarrierWeighedJson): WeighingSurprise => ({
  predicted: measured(reading_g),
  innovation: 0,
  off: 0,
  surprising: false,
  unrecorded: false,
  causes: [],
})
