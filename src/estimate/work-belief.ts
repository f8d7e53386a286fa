import type { Grams, Measured } from '../units/index.ts'
import { extend, type JointNormal, type LinearForm } from './joint-normal.ts'
import { defaultPriors } from './priors.ts'
import type { ReelBelief } from './reel-belief.ts'
import { placeOf } from './shelf-book.ts'
import { type ReelBlock, reelChain } from './shelf-chain.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { ShelfFact } from './shelf-facts.ts'
import { jointOfReel, type Wanted } from './shelf-joint.ts'
import { shelfNames } from './shelf-posterior.ts'
import { reelState } from './shelf-state.ts'
import { tapeOfReel } from './shelf-tape.ts'
import { type StandIn, standInsOf } from './stand-in.ts'

/** What a printer takes, as parts of a joint: its means over prints, and one print about them. */
export interface PrinterWork {
  /** Mean fed for each millimetre asked. */
  readonly feedFactor: LinearForm
  /** Mean start allowance, mm. */
  readonly startAllowance: LinearForm
  /** Standard deviation of one print's feed factor about the mean. */
  readonly feedOfOneDraw: number
  /** Standard deviation of one print's start allowance about the mean, mm. */
  readonly startOfOneDraw: number
}

/**
 * One reel and the printers that may draw from it, jointly normal: what is needed to say whether it
 * serves several prints. What prints of one printer share stays shared between them, what each has of
 * its own is apart.
 */
export interface WorkBelief {
  /** As `ReelBelief.joint`: it does not know that a reel holds no less than nothing. */
  readonly joint: JointNormal
  /** Net mass, g. */
  readonly net: LinearForm
  /** Linear density, g/m. */
  readonly linearDensity: LinearForm
  /** By id. */
  readonly printers: Readonly<Record<string, PrinterWork>>
  /** The same under priors that stand for all that those behind this may be; see `ReelBelief.standIns`. */
  readonly standIns?: readonly StandIn<Omit<WorkBelief, 'standIns'>>[]
}

const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })
const feedOf = (printer: string): string => `${shelfNames.feedFactor} of ${printer}`
const startOf = (printer: string): string => `${shelfNames.startAllowance} of ${printer}`

/**
 * What a shelf believes of a reel and of printers, jointly.
 *
 * @param printers - ids, each once
 * @throws DomainError `unknown_id`
 * @see docs/method/match.md, "What a reel is asked to do"
 */
export const workBelief = (
  estimate: ShelfEstimate,
  reel: string,
  printers: readonly string[],
): WorkBelief => {
  const place = placeOf(estimate.book.reelAt, reel, 'reel')
  return withStandIns(estimate, (under) =>
    workOf(under, under.blocks[place]!, under.book.makeOfReel[place]!, printers),
  )
}

/**
 * The same of a reel that is not there yet: a new one of a make, with nothing known of itself but what
 * its label says.
 *
 * @param labelNet - g, > 0
 * @throws DomainError `unknown_id`, `impossible_fact`
 */
export const newReelWork = (
  estimate: ShelfEstimate,
  make: string,
  labelNet: Grams,
  printers: readonly string[],
): WorkBelief => {
  const place = placeOf(estimate.book.makeAt, make, 'make')
  const opening: ShelfFact = { kind: 'opened', id: 'a new reel', at: 0, reel: 'new', labelNet }
  return withStandIns(estimate, (under) => {
    const { book, point } = under
    const tape = tapeOfReel(book, [opening], place)
    const { density, nominalArea } = book.makes[place]!
    const block = reelChain(tape, book, place, point, nominalArea * density.value)
    return workOf(under, block, place, printers)
  })
}

const withStandIns = (
  estimate: ShelfEstimate,
  workUnder: (under: ShelfEstimate) => WorkBelief,
): WorkBelief => {
  const standIns = standInsOf(estimate.standIns(), workUnder)
  return { ...workUnder(estimate), ...(standIns.length > 0 && { standIns }) }
}

const workOf = (
  estimate: ShelfEstimate,
  block: ReelBlock,
  make: number,
  printers: readonly string[],
): WorkBelief => {
  const { book } = estimate
  const wanted: Wanted[] = [
    { name: shelfNames.net, state: reelState.net },
    { name: shelfNames.linearDensity, state: reelState.linear },
  ]
  for (const printer of printers) {
    const column = 2 * placeOf(book.printerAt, printer, 'printer')
    wanted.push({ name: feedOf(printer), column }, { name: startOf(printer), column: column + 1 })
  }
  const joint = jointOfReel(estimate, block, make, wanted)
  const { feedOfOneDraw, startOfOneDraw } = book.priors
  const works = printers.map((printer, i): readonly [string, PrinterWork] => [
    printer,
    {
      feedFactor: one(feedOf(printer)),
      startAllowance: one(startOf(printer)),
      feedOfOneDraw: Math.abs(joint.mean[2 + 2 * i]!) * feedOfOneDraw.u,
      startOfOneDraw: startOfOneDraw.u,
    },
  ])
  return {
    joint,
    net: one(shelfNames.net),
    linearDensity: one(shelfNames.linearDensity),
    printers: Object.fromEntries(works),
  }
}

/** What a printer takes, told apart from any shelf. */
export interface ToldPrinter {
  /** Its mean. */
  readonly feedFactor: Measured
  /** Its mean, mm. */
  readonly startAllowance: Measured
  readonly feedOfOneDraw: number
  /** mm */
  readonly startOfOneDraw: number
}

const { feedFactor, startAllowance } = defaultPriors

/** A printer nobody has measured, all of its doubt shared by its prints. */
export const untoldPrinter: ToldPrinter = {
  feedFactor: { value: feedFactor.value, u: feedFactor.u },
  startAllowance: { value: startAllowance.value, u: startAllowance.u },
  feedOfOneDraw: 0,
  startOfOneDraw: 0,
}

/**
 * A reel told by itself, with printers independent of it.
 *
 * @throws DomainError as `extend`
 */
export const toldWork = (
  { joint, net, linearDensity }: Pick<ReelBelief, 'joint' | 'net' | 'linearDensity'>,
  printers: Readonly<Record<string, ToldPrinter>>,
): WorkBelief => {
  const entries = Object.entries(printers)
  const more = entries.flatMap(([id, told]) => [
    [feedOf(id), told.feedFactor] as const,
    [startOf(id), told.startAllowance] as const,
  ])
  const works = entries.map(([id, told]): readonly [string, PrinterWork] => [
    id,
    {
      feedFactor: one(feedOf(id)),
      startAllowance: one(startOf(id)),
      feedOfOneDraw: told.feedOfOneDraw,
      startOfOneDraw: told.startOfOneDraw,
    },
  ])
  return {
    joint: extend(joint, Object.fromEntries(more)),
    net,
    linearDensity,
    printers: Object.fromEntries(works),
  }
}
