import { type Measured, measured } from '../units/index.ts'
import type { JointNormal } from './joint-normal.ts'
import { makeUnknowns, placeOf } from './shelf-book.ts'
import { reelChain } from './shelf-chain.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import { jointOfReel, meanOfState, varianceOfShared, type Wanted } from './shelf-joint.ts'
import type { MakePrior } from './shelf-priors.ts'
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
  /** Mean of the make, g. */
  makeTare: 'make_tare',
  /** Mean of the make, g/cm³. */
  makeDensity: 'make_density',
  /** Mean of the make, g/m. */
  makeLinearDensity: 'make_linear_density',
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
  /** Adds `make_tare`, `make_density` and `make_linear_density`; not unless true. */
  readonly ofMake?: boolean
}

const own = makeUnknowns.count

type MakeWeights = readonly (readonly [number, number])[]

const weightsOfLinearDensity = ({ density, nominalArea, areaSpread }: MakePrior): MakeWeights => [
  [makeUnknowns.density, nominalArea * density.u],
  [makeUnknowns.area, nominalArea * density.value * areaSpread],
]

/** Mean tare, density and linear density of the make. */
export const wantedOfMake = (make: MakePrior): readonly Wanted[] => {
  const { tare, density, nominalArea } = make
  return [
    { name: shelfNames.makeTare, value: tare.value, ofMake: [[makeUnknowns.tare, tare.u]] },
    {
      name: shelfNames.makeDensity,
      value: density.value,
      ofMake: [[makeUnknowns.density, density.u]],
    },
    {
      name: shelfNames.makeLinearDensity,
      value: nominalArea * density.value,
      ofMake: weightsOfLinearDensity(make),
    },
  ]
}

/**
 * Everything known now of one reel, jointly normal with a printer and a scale if asked: `tare`,
 * `net`, `linear_density`, then `water`, `feed_factor`, `start_allowance`, `gain`, then the make's
 * means. With `at`, the net as it was then by what is known now, later facts included.
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
  { printer, scale, at, water = false, ofMake = false }: ReelPosteriorOptions = {},
): JointNormal => {
  const { book, blocks, tapes, point } = estimate
  const place = placeOf(book.reelAt, reel, 'reel')
  const make = book.makeOfReel[place]!
  const block =
    at === undefined
      ? blocks[place]!
      : reelChain(tapes[place]!, book, make, point, point.linearDensity[place]!, { at })
  const isDamp = tapes[place]!.water !== undefined
  const kept = isDamp ? 4 : 3
  const wanted: Wanted[] = [
    { name: shelfNames.tare, state: reelState.tare },
    { name: shelfNames.net, state: at === undefined ? reelState.net : kept },
    { name: shelfNames.linearDensity, state: reelState.linear },
  ]
  if (water) {
    const state = at === undefined ? reelState.water : kept + 1
    wanted.push({ name: shelfNames.water, ...(isDamp ? { state } : { value: 0, ofMake: [] }) })
  }
  if (printer !== undefined) {
    const column = 2 * placeOf(book.printerAt, printer, 'printer')
    wanted.push(
      { name: shelfNames.feedFactor, column },
      { name: shelfNames.startAllowance, column: column + 1 },
    )
  }
  if (scale !== undefined) {
    const column = 2 * book.printers.length + placeOf(book.scaleAt, scale, 'scale')
    wanted.push({ name: shelfNames.gain, column })
  }
  if (ofMake) wanted.push(...wantedOfMake(book.makes[make]!))
  return jointOfReel(estimate, block, make, wanted)
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
  const weights = new Float64Array(4)
  const row = new Float64Array(own + shared.coreSize)
  weights[reelState.tare] = tares
  for (let reel = 0; reel < blocks.length; reel++) {
    const block = blocks[reel]!
    const { columns, mean, loads, spread: p } = block
    const make = book.makeOfReel[reel]!
    const k = own + columns.length
    const depth = mean.length
    const isDamp = tares === 1 && tapes[reel]!.water !== undefined
    const water = isDamp ? meanOfState(shared, make, block, reelState.water) : 0
    weights[reelState.net] = 1 + water
    weights[reelState.water] = isDamp ? meanOfState(shared, make, block, reelState.net) : 0
    row.fill(0, 0, k)
    // The water is in the net's weight already, so it adds to the spread only.
    let sum = 0
    let variance = 0
    for (let i = 0; i < depth; i++) {
      const weight = weights[i]!
      if (weight === 0) continue
      if (i !== reelState.water) sum += weight * meanOfState(shared, make, block, i)
      for (let j = 0; j < k; j++) row[j]! += weight * loads[i * k + j]!
      for (let j = 0; j < depth; j++) variance += weight * weights[j]! * p[i * depth + j]!
    }
    variance += varianceOfShared(shared, make, columns, row)
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
  const { tare, overfill, density, nominalArea } = book.makes[place]!
  const mean = shared.makeMean[place]!
  const { covariance } = shared.makeSpread(place)
  const linear = (value: number, weights: MakeWeights): Measured => {
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
    linearDensity: linear(nominalArea * density.value, weightsOfLinearDensity(book.makes[place]!)),
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
