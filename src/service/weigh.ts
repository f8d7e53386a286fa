import type {
  CarrierWeighedJson,
  CatalogueRowJson,
  FactJson,
  MakeRowJson,
  OpenedJson,
  WeighedJson,
} from '../contract/index.ts'
import type { WeighingSurprise } from '../estimate/index.ts'
import { otherLabel } from '../ledger/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { carrierLabelsOf } from './carrier-labels-of.ts'
import { chooseScale, type ScaleChosen } from './choose-scale.ts'
import { type ContradictedWeighing, contradictedOfMake, makeInEstimate } from './contradicted.ts'
import { findReel } from './find-reel.ts'
import { findRow, rowName } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import type { ShelfView } from './shelf-view.ts'
import { testWeighing } from './test-weighing.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/**
 * Whether a surprising weighing is written down all the same: true for any; the surprise that a person
 * was shown for that one, and not for another that it has become meanwhile.
 */
export type Acceptance = boolean | WeighingSurprise

/** Something put on a scale, and what it was. */
export interface WeighInput extends Said {
  /** Id of a reel. */
  readonly reel?: string
  /** Name or id of a make, whose empty carrier it was. */
  readonly make?: string
  /** True when the carrier was empty. */
  readonly empty?: boolean
  /** True when the empty carrier was not the reel's own but another of its make. */
  readonly another?: boolean
  /** Of a make's empty carrier: the net mass on the label of what it carried, g. */
  readonly label_net_g?: number
  readonly weighing: WeighingTold
  readonly accept?: Acceptance
  /** True to hold it against the shelf only: nothing is written down, whatever comes of it. */
  readonly test?: boolean
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
  /** Absent where it was surprising and not accepted, or only tested: nothing was written down. */
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
export const weigh = (handed: HandedIn, input: WeighInput): Promise<Outcome<Weighed>> =>
  overShelf(handed, async (view) => {
    const scale = chooseScale(handed, view.rows, input.weighing.scale)
    if (!scale.ok) return scale
    const fact = factOf(handed, view, input, scale.value)
    if (!fact.ok) return fact
    const { accept: accepted = false, test = false } = input
    return recordWeighing(handed, view, {
      fact: fact.value,
      scale: scale.value,
      accept: accepted,
      test,
    })
  })

/** A weighing and what goes to the ledger with it, before it. */
export interface TestedWeighing {
  readonly fact: WeighedJson | CarrierWeighedJson
  readonly scale: ScaleChosen
  readonly accept: Acceptance
  readonly test?: boolean
  readonly rows?: readonly CatalogueRowJson[]
  readonly facts?: readonly FactJson[]
  readonly notes?: readonly string[]
}

/** Tests a weighing; writes it and what goes with it down where it agrees, or is accepted. */
export const recordWeighing = async (
  handed: HandedIn,
  view: ShelfView,
  {
    fact,
    scale,
    accept: accepted,
    test = false,
    rows = [],
    facts = [],
    notes = [],
  }: TestedWeighing,
): Promise<Outcome<Weighed>> => {
  const withScale = scale.isNew ? [...rows, scale.scale] : rows
  const tested = testWeighing(view, fact, withScale, facts)
  if (!tested.ok) return tested
  const { surprise } = tested.value
  const opened = facts.find((one): one is OpenedJson => one.kind === 'opened')
  const seen = { surprise, scale, view, ...(opened && { opened }) }
  if (test || (surprise.surprising && !isTaken(surprise, accepted))) {
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

/** Whether a surprising weighing is to be taken: any, or the one that was shown. */
export const isTaken = (surprise: WeighingSurprise, accepted: Acceptance): boolean =>
  typeof accepted === 'boolean' ? accepted : looksAlike(surprise, accepted)

/** Told to a person, the one reads like the other: to a tenth of a deviation, or of many to a hundredth. */
const looksAlike = ({ off }: WeighingSurprise, { off: seen }: WeighingSurprise): boolean =>
  Math.abs(off - seen) <= Math.max(0.1, 0.01 * Math.abs(seen))

/** What contradicts everything else now, and did not before. */
const broughtToLight = (
  before: ShelfView,
  after: ShelfView,
  fact: WeighedJson | CarrierWeighedJson,
): readonly ContradictedWeighing[] => {
  const make =
    fact.kind === 'weighed' ? makeInEstimate(after.estimate, fact.reel) : sizeIn(after, fact)
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

/** The make of a carrier as the estimate knows it. */
const sizeIn = ({ shelf }: ShelfView, { id }: CarrierWeighedJson): string | undefined => {
  const seen = shelf.facts.find((fact) => fact.id === id)
  return seen?.kind === 'carrier-weighed' ? seen.make : undefined
}

const factOf = (
  handed: HandedIn,
  view: ShelfView,
  { reel, make, empty, another, label_net_g, weighing, ...said }: WeighInput,
  { scale }: ScaleChosen,
): Outcome<WeighedJson | CarrierWeighedJson> => {
  const common = factCommon(handed, said)
  const kept = weighingOf(weighing, scale)
  if (label_net_g !== undefined && reel !== undefined) {
    return refuse({
      code: 'label_of_reel',
      message:
        'A label is told of an empty carrier of a make: that of a reel is known by the reel. Leave it out.',
      received: String(label_net_g),
    })
  }
  if (reel !== undefined) {
    const found = findReel(view, reel)
    if (!found.ok) return found
    const id = found.value
    if (empty !== true) return accept({ kind: 'weighed', ...common, reel: id, weighing: kept })
    const { make: ofMake, label_net_g: label } = view.cards.get(id)!.opened
    const size = label === undefined ? {} : { label_net_g: label }
    const own = another === true ? size : { reel: id }
    return accept({ kind: 'carrier-weighed', ...common, make: ofMake, ...own, weighing: kept })
  }
  if (make === undefined) {
    return refuse({
      code: 'nothing_weighed',
      message: 'Say what stood on the scale: a reel or a make.',
    })
  }
  if (empty !== true) {
    return refuse({
      code: 'make_not_weighed',
      message:
        'What is weighed of a make is an empty carrier: say that it was empty, or name the reel that stood on the scale.',
      received: make,
    })
  }
  const found = findRow(view.rows, 'make', make)
  if (!found.ok) return found
  const size = carrierSize(view, found.value, label_net_g)
  if (!size.ok) return size
  return accept({
    kind: 'carrier-weighed',
    ...common,
    make: found.value.id,
    ...size.value,
    weighing: kept,
  })
}

/**
 * By which an empty carrier of a make tells its size: the label told of it, or that of all the make's reels
 * where it is not the make's own.
 *
 * @returns `carrier_size_needed` where they came on several and none is told
 */
export const carrierSize = (
  view: ShelfView,
  make: MakeRowJson,
  label_net_g: number | undefined,
): Outcome<Pick<CarrierWeighedJson, 'label_net_g'>> => {
  if (label_net_g !== undefined) return accept({ label_net_g })
  const labels = carrierLabelsOf(view, make)
  if (labels.length === 1) {
    const other = otherLabel(make, labels[0])
    return accept(other === undefined ? {} : { label_net_g: other })
  }
  return refuse({
    code: 'carrier_size_needed',
    message: `Reels of ${rowName(make)} came on carriers of several sizes, and what one weighs tells nothing of the others. Say what was on the label of what this one carried: ${labels.map((label) => `${label} g`).join(', ')}.`,
    expected: labels.join(', '),
  })
}
