import { type Measured, measured } from '../units/index.ts'
import type { JointNormal } from './joint-normal.ts'
import { makeUnknowns, placeOf } from './shelf-book.ts'
import { type ReelBlock, reelChain } from './shelf-chain.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import { reelState } from './shelf-state.ts'

/** Names in the joint of `reelPosterior`. */
export const shelfNames = {
  /** g */
  tare: 'tare',
  /** g, at the time asked */
  net: 'net',
  /** g/m */
  linearDensity: 'linear_density',
  /** Water over dry mass, at the time asked. */
  water: 'water',
  /** The printer's mean. */
  feedFactor: 'feed_factor',
  /** The printer's mean, mm. */
  startAllowance: 'start_allowance',
  /** Relative error of the scale. */
  gain: 'gain',
} as const

/** What to have in the joint of a reel beside its tare, net and linear density. */
export interface ReelPosteriorOptions {
  /** Adds `water`, exactly 0 where the material takes up none. */
  readonly water?: boolean
  /** Id: adds `feed_factor` and `start_allowance`. */
  readonly printer?: string
  /** Id: adds `gain`. */
  readonly scale?: string
  /**
   * The net after all facts up to and including this time, and the water at this time, which may be
   * to come; after all of them, and at the last of them, unless given.
   */
  readonly at?: number
}

const own = makeUnknowns.count

/**
 * Everything known now of one reel, jointly normal with a printer and a scale if asked: `tare`,
 * `net`, `linear_density`, then `water`, `feed_factor`, `start_allowance`, `gain`. With `at`, the net
 * as it was then by what is known now, later facts included.
 *
 * Net and linear density are those of the dry filament; a scale shows tare + net·(1 + water).
 *
 * The net is a number of the model and may be negative within doubt. A print to come adds its own
 * spread to the printer's means: `feedOfOneDraw` and `startOfOneDraw` of the priors.
 *
 * @throws DomainError `unknown_id`
 */
export const reelPosterior = (
  estimate: ShelfEstimate,
  reel: string,
  { printer, scale, at, water = false }: ReelPosteriorOptions = {},
): JointNormal => {
  const { book, blocks, tapes, point } = estimate
  const place = placeOf(book.reelAt, reel, 'reel')
  const make = book.makeOfReel[place]!
  const block =
    at === undefined
      ? blocks[place]!
      : reelChain(tapes[place]!, book, make, point, point.linearDensity[place]!, at)
  const names: string[] = [shelfNames.tare, shelfNames.net, shelfNames.linearDensity]
  const states: (number | undefined)[] = [0, 1, 2]
  const isDamp = tapes[place]!.water !== undefined
  const kept = isDamp ? 4 : 3
  if (at !== undefined) states[1] = kept
  if (water) {
    names.push(shelfNames.water)
    states.push(isDamp ? (at === undefined ? reelState.water : kept + 1) : undefined)
  }
  const more: number[] = []
  if (printer !== undefined) {
    names.push(shelfNames.feedFactor, shelfNames.startAllowance)
    const column = 2 * placeOf(book.printerAt, printer, 'printer')
    more.push(column, column + 1)
  }
  if (scale !== undefined) {
    names.push(shelfNames.gain)
    more.push(2 * book.printers.length + placeOf(book.scaleAt, scale, 'scale'))
  }
  return jointOf(estimate, block, make, names, states, more)
}

/** The joint of some states of a block, an absent one being exactly 0, and some core unknowns. */
const jointOf = (
  { book, shared }: ShelfEstimate,
  block: ReelBlock,
  make: number,
  names: readonly string[],
  states: readonly (number | undefined)[],
  more: readonly number[],
): JointNormal => {
  const size = names.length
  const met = block.columns.length
  const k = own + met
  const columns = [...block.columns, ...more]
  const all = own + columns.length
  // rows: each name as a weighted sum of the make's four, the columns met and the columns asked
  const rows = new Float64Array(size * all)
  const mean = new Float64Array(size)
  for (const [i, state] of states.entries()) {
    if (state === undefined) continue
    mean[i] = block.mean[state]!
    rows.set(block.loads.subarray(state * k, (state + 1) * k), i * all)
  }
  for (const [l, column] of more.entries()) {
    const i = states.length + l
    mean[i] = book.coreValue[column]!
    rows[i * all + k + l] = book.coreSpread[column]!
  }
  const { u, covariance: between } = localShared(shared, make, columns)
  const covariance = new Float64Array(size * size)
  const carried = new Float64Array(all)
  const depth = block.mean.length
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < all; j++) {
      let sum = 0
      for (let l = 0; l < all; l++) sum += rows[i * all + l]! * between[l * all + j]!
      carried[j] = sum
      mean[i]! += rows[i * all + j]! * u[j]!
    }
    for (let j = 0; j <= i; j++) {
      const [row, column] = [states[i], states[j]]
      let sum = row === undefined || column === undefined ? 0 : block.spread[row * depth + column]!
      for (let l = 0; l < all; l++) sum += carried[l]! * rows[j * all + l]!
      covariance[i * size + j] = sum
      covariance[j * size + i] = sum
    }
  }
  return { names, mean, covariance }
}

/** Mean and covariance of a make's four unknowns followed by some core columns. */
const localShared = (
  {
    coreSize,
    coreMean,
    coreCovariance,
    makeMean,
    makeCovariance,
    makeWithCore,
  }: ShelfEstimate['shared'],
  make: number,
  columns: ArrayLike<number>,
): { u: Float64Array; covariance: Float64Array } => {
  const all = own + columns.length
  const u = new Float64Array(all)
  const covariance = new Float64Array(all * all)
  u.set(makeMean[make]!)
  for (let i = 0; i < all; i++) {
    const row = i - own
    if (row >= 0) u[i] = coreMean[columns[row]!]!
    for (let j = 0; j <= i; j++) {
      const entry =
        row < 0
          ? makeCovariance[make]![i * own + j]!
          : j < own
            ? makeWithCore[make]![j * coreSize + columns[row]!]!
            : coreCovariance[columns[row]! * coreSize + columns[j - own]!]!
      covariance[i * all + j] = entry
      covariance[j * all + i] = entry
    }
  }
  return { u, covariance }
}

/** Net of every reel now, in the order of the catalogue, g. */
export interface ShelfNets {
  readonly value: Float64Array
  /** Standard uncertainty. */
  readonly u: Float64Array
}

/** The net of every reel after all its facts, in one go. */
export const shelfNets = (estimate: ShelfEstimate): ShelfNets => netsWithTare(estimate, 0)

/**
 * The gross of every reel after all its facts, with the water it then holds, in one go, g. The
 * product of net and water is taken to first order about their means.
 */
export const shelfGrosses = (estimate: ShelfEstimate): ShelfNets => netsWithTare(estimate, 1)

/** Net, with `tares` = 1 and the water in it the gross. */
const netsWithTare = ({ blocks, book, shared, tapes }: ShelfEstimate, tares: 0 | 1): ShelfNets => {
  const value = new Float64Array(blocks.length)
  const spread = new Float64Array(blocks.length)
  const weights = [tares, 1, 0, 0]
  for (let reel = 0; reel < blocks.length; reel++) {
    const { columns, mean, loads, spread: p } = blocks[reel]!
    const { u, covariance } = localShared(shared, book.makeOfReel[reel]!, columns)
    const k = u.length
    const depth = mean.length
    const meanOf = (state: number): number => {
      let sum = mean[state]!
      for (let i = 0; i < k; i++) sum += loads[state * k + i]! * u[i]!
      return sum
    }
    const isDamp = tares === 1 && tapes[reel]!.water !== undefined
    const water = isDamp ? meanOf(reelState.water) : 0
    weights[reelState.net] = 1 + water
    weights[reelState.water] = isDamp ? meanOf(reelState.net) : 0
    const row = new Float64Array(k)
    // The water is in the net's weight already, so it adds to the spread only.
    let sum = 0
    let variance = 0
    for (let i = 0; i < depth; i++) {
      const weight = weights[i]!
      if (weight === 0) continue
      if (i !== reelState.water) sum += weight * meanOf(i)
      for (let j = 0; j < k; j++) row[j]! += weight * loads[i * k + j]!
      for (let j = 0; j < depth; j++) variance += weight * weights[j]! * p[i * depth + j]!
    }
    for (let i = 0; i < k; i++) {
      for (let j = 0; j < k; j++) variance += row[i]! * covariance[i * k + j]! * row[j]!
    }
    value[reel] = sum
    spread[reel] = Math.sqrt(Math.max(0, variance))
  }
  return { value, u: spread }
}

/** What is believed of a make. */
export interface MakePosterior {
  /** Mean tare, g. */
  readonly tare: Measured
  /** Mean net mass at opening over the label. */
  readonly overfill: Measured
  /** Mean density, g/cm³. */
  readonly density: Measured
  /** Mean linear density, g/m. */
  readonly linearDensity: Measured
}

/** Means of a make, learnt from all its reels. @throws DomainError `unknown_id` */
export const makePosterior = ({ book, shared }: ShelfEstimate, make: string): MakePosterior => {
  const place = placeOf(book.makeAt, make, 'make')
  const { tare, overfill, density, nominalArea, areaSpread } = book.makes[place]!
  const mean = shared.makeMean[place]!
  const covariance = shared.makeCovariance[place]!
  const linear = (value: number, weights: readonly [number, number][]): Measured => {
    let sum = value
    let variance = 0
    for (const [i, wi] of weights) {
      sum += wi * mean[i]!
      for (const [j, wj] of weights) variance += wi * wj * covariance[i * own + j]!
    }
    return measured(sum, Math.sqrt(Math.max(0, variance)))
  }
  return {
    tare: linear(tare.value, [[makeUnknowns.tare, tare.u]]),
    overfill: linear(overfill.value, [[makeUnknowns.overfill, overfill.u]]),
    density: linear(density.value, [[makeUnknowns.density, density.u]]),
    linearDensity: linear(nominalArea * density.value, [
      [makeUnknowns.density, nominalArea * density.u],
      [makeUnknowns.area, nominalArea * density.value * areaSpread],
    ]),
  }
}

/** What is believed of a printer: means over its prints. */
export interface PrinterPosterior {
  readonly feedFactor: Measured
  /** mm */
  readonly startAllowance: Measured
  /** Covariance of the two, mm. */
  readonly covariance: number
}

/** A printer, learnt from all the reels it drew from. @throws DomainError `unknown_id` */
export const printerPosterior = (estimate: ShelfEstimate, printer: string): PrinterPosterior => {
  const { book, shared } = estimate
  const column = 2 * placeOf(book.printerAt, printer, 'printer')
  const entry = shared.coreCovariance[column * shared.coreSize + column + 1]!
  return {
    feedFactor: coreAt(estimate, column),
    startAllowance: coreAt(estimate, column + 1),
    covariance: entry * book.coreSpread[column]! * book.coreSpread[column + 1]!,
  }
}

/** Relative error of a scale. @throws DomainError `unknown_id` */
export const scalePosterior = (estimate: ShelfEstimate, scale: string): Measured =>
  coreAt(
    estimate,
    2 * estimate.book.printers.length + placeOf(estimate.book.scaleAt, scale, 'scale'),
  )

const coreAt = ({ book, shared }: ShelfEstimate, column: number): Measured => {
  const spread = book.coreSpread[column]!
  const variance = shared.coreCovariance[column * (shared.coreSize + 1)]!
  return measured(
    book.coreValue[column]! + spread * shared.coreMean[column]!,
    spread * Math.sqrt(variance),
  )
}
