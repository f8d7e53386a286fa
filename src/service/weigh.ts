import type {
  CarrierWeighedJson,
  CatalogueRowJson,
  FactJson,
  OpenedJson,
  WeighedJson,
} from '../contract/index.ts'
import type { WeighingSurprise } from '../estimate/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { chooseScale, type ScaleChosen } from './choose-scale.ts'
import { type ContradictedWeighing, contradictedOfMake } from './contradicted.ts'
import { findReel } from './find-reel.ts'
import { findRow } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import { type ShelfView, shelfView } from './shelf-view.ts'
import { testWeighing } from './test-weighing.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** Something put on a scale, and what it was. */
export interface WeighInput extends Said {
  /** Id of a reel. */
  readonly reel?: string
  /** Name or id of a make, whose empty carrier it was. */
  readonly make?: string
  /** True when the carrier was empty. */
  readonly empty?: boolean
  readonly weighing: WeighingTold
  /** True to write it down though it is surprising. */
  readonly accept?: boolean
}

/** A weighing that was tested, and written down unless it was surprising. */
export interface Weighed {
  readonly surprise: WeighingSurprise
  readonly fact: WeighedJson | CarrierWeighedJson
  readonly scale: ScaleChosen
  /** Of a reel that arrives with it. */
  readonly opened?: OpenedJson
  /** The shelf before. */
  readonly view: ShelfView
  /** Absent where it was surprising and was not accepted: nothing was written down. */
  readonly recorded?: Recorded
  /**
   * Earlier weighings of the make, the farthest off first: those that it brought to light as wrong; where
   * it was not recorded, those without any one of which it would not surprise.
   */
  readonly contradicted: readonly ContradictedWeighing[]
}

/**
 * Writes a weighing down, unless the shelf predicts something else.
 *
 * @returns refusals of naming, of the store, and of facts that make no sense
 */
export const weigh = async (handed: HandedIn, input: WeighInput): Promise<Outcome<Weighed>> => {
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const scale = chooseScale(handed, view.value.rows, input.weighing.scale)
  if (!scale.ok) return scale
  const fact = factOf(handed, view.value, input, scale.value)
  if (!fact.ok) return fact
  return recordWeighing(handed, view.value, {
    fact: fact.value,
    scale: scale.value,
    accept: input.accept === true,
  })
}

/** A weighing and what goes to the ledger with it, before it. */
export interface TestedWeighing {
  readonly fact: WeighedJson | CarrierWeighedJson
  readonly scale: ScaleChosen
  readonly accept: boolean
  readonly rows?: readonly CatalogueRowJson[]
  readonly facts?: readonly FactJson[]
  readonly notes?: readonly string[]
}

/** Tests a weighing; writes it and what goes with it down where it agrees, or is accepted. */
export const recordWeighing = async (
  handed: HandedIn,
  view: ShelfView,
  { fact, scale, accept: isAccepted, rows = [], facts = [], notes = [] }: TestedWeighing,
): Promise<Outcome<Weighed>> => {
  const withScale = scale.isNew ? [...rows, scale.scale] : rows
  const tested = testWeighing(view, fact, withScale, facts)
  if (!tested.ok) return tested
  const { surprise } = tested.value
  const opened = facts.find((one): one is OpenedJson => one.kind === 'opened')
  const seen = { surprise, scale, view, ...(opened && { opened }) }
  if (surprise.surprising && !isAccepted) {
    return accept({ ...seen, fact, contradicted: tested.value.atFault })
  }
  // Where chance or an unusual carrier explains it, the reel's history still tells of the net.
  const kept =
    surprise.surprising && surprise.unrecorded && fact.kind === 'weighed'
      ? { ...fact, accepted_off: surprise.off }
      : fact
  const recorded = await record(handed, view, { facts: [...facts, kept], rows: withScale }, notes)
  if (!recorded.ok) return recorded
  const contradicted = broughtToLight(view, recorded.value.view, kept)
  return accept({ ...seen, fact: kept, recorded: recorded.value, contradicted })
}

/** What contradicts everything else now, and did not before. */
const broughtToLight = (
  before: ShelfView,
  after: ShelfView,
  fact: WeighedJson | CarrierWeighedJson,
): readonly ContradictedWeighing[] => {
  const make = fact.kind === 'weighed' ? after.cards.get(fact.reel)?.opened.make : fact.make
  if (make === undefined || !after.estimate.book.makeAt.has(make)) return []
  const found = contradictedOfMake(after, make)
  // Where the new one is itself the farthest off, the others are so by it.
  if (found.length === 0 || found[0]?.fact === fact.id) return []
  const known = new Set(
    before.estimate.book.makeAt.has(make)
      ? contradictedOfMake(before, make).map((each) => each.fact)
      : [],
  )
  return found.filter((each) => each.fact !== fact.id && !known.has(each.fact))
}

const factOf = (
  handed: HandedIn,
  view: ShelfView,
  { reel, make, empty, weighing, ...said }: WeighInput,
  { scale }: ScaleChosen,
): Outcome<WeighedJson | CarrierWeighedJson> => {
  const common = factCommon(handed, said)
  const kept = weighingOf(weighing, scale)
  if (reel !== undefined) {
    const found = findReel(view, reel)
    if (!found.ok) return found
    const id = found.value
    if (empty !== true) return accept({ kind: 'weighed', ...common, reel: id, weighing: kept })
    const ofMake = view.cards.get(id)!.opened.make
    return accept({ kind: 'carrier-weighed', ...common, make: ofMake, reel: id, weighing: kept })
  }
  if (make === undefined) {
    return refuse({
      code: 'nothing_weighed',
      message: 'Say what stood on the scale: a reel or a make.',
    })
  }
  const found = findRow(view.rows, 'make', make)
  if (!found.ok) return found
  return accept({ kind: 'carrier-weighed', ...common, make: found.value.id, weighing: kept })
}
