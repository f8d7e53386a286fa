import { NumberRoom } from './number-room.ts'
import { anyPartOf } from './part-of-label.ts'
import { makeUnknowns, type ShelfBook } from './shelf-book.ts'
import type { DampPoint } from './shelf-damp-mass.ts'
import type { MakePrior, ShelfPriors } from './shelf-priors.ts'
import { ReelWater } from './shelf-reel-water.ts'
import { ReelState, readingAt, reelState } from './shelf-state.ts'
import { type Tape, tapeKinds, tapeWidth } from './shelf-tape.ts'

/*
 * One reel through time.
 *
 * The reel's state (`ReelState`) is run through its tape in the order of time. The shared unknowns u
 * are not filtered: the state is carried as a function of them, and every reading leaves behind what
 * it says of u alone. This is the elimination of the reel (all its draws' errors included) onto the
 * shared unknowns: the errors of draws between weighings stay in P and correlate what comes later.
 *
 * Invariant: columns 0 to 3 of u are the make's, column 4 + i is core column `columns[i]`.
 */

/** What one reel (or the facts of a make without a reel) says, seen from the shared unknowns. */
export interface ReelBlock {
  /** Core columns met, in the order met. */
  readonly columns: Int32Array
  /** J: k × k, k = 4 + columns. */
  readonly information: Float64Array
  /** s: k. */
  readonly score: Float64Array
  /** a: depth. */
  readonly mean: Float64Array
  /** B: depth × k. */
  readonly loads: Float64Array
  /** P: depth × depth. */
  readonly spread: Float64Array
  /** Where the reading of the row asked for was expanded, if it was of damp filament. */
  readonly dampAt?: DampPoint
  /** Σ ln S + e²/S over its readings, e as it is at u = 0. */
  readonly misfit: number
  /** Σ e²/S over its readings, in the same way, and how many they are. */
  readonly distance: number
  readonly readings: number
}

/** A moment of a reel: after all facts up to and including a time, or after a row of its tape. */
export type Moment = { readonly at: number } | { readonly row: number }

/** Where products of unknowns are expanded. */
export interface ShelfPoint {
  /** Feed factor and start allowance (mm) of each printer, as core columns. */
  readonly core: Float64Array
  /** Linear density of each reel, g/m. */
  readonly linearDensity: Float64Array
  /** The four unknowns of each make, in prior standard deviations. */
  readonly make: readonly Float64Array[]
}

/**
 * Runs a tape.
 *
 * @param linearDensity - λ of this reel where products are expanded, g/m
 * @param moment - the net at this moment is kept as one more state, and the water as it is then as the
 *   next
 * @param room - where the block's figures are laid
 */
export const reelChain = (
  tape: Tape,
  book: ShelfBook,
  make: number,
  point: ShelfPoint,
  linearDensity: number,
  moment?: Moment,
  room: NumberRoom = new NumberRoom(),
): ReelBlock => {
  const { kind, columns, at } = tape
  const rows = kind.length
  const isDamp = tape.water !== undefined && book.makes[make]!.water !== undefined
  const places = isDamp ? 4 : 3
  const depth = moment === undefined ? places : isDamp ? 6 : 4
  const state = new ReelState(depth, makeUnknowns.count + columns.length, room)
  opening(state, tape, book.makes[make]!, book.priors)
  const water = isDamp
    ? new ReelWater(
        state,
        tape.water,
        book.makes[make]!.water!,
        sharedPoint(book, point, make, columns, room),
        room,
      )
    : undefined
  const run = new Run(state, water, tape, book, make, point, linearDensity)
  let dampAt: DampPoint | undefined
  if (moment !== undefined) {
    run.to(rowsUntil(moment, at))
    if ('row' in moment && kind[moment.row] === tapeKinds.seenDamp) dampAt = water!.expanded
    state.copy(reelState.net, places)
    if (water) water.runTo('at' in moment ? moment.at : at[moment.row]!)
    if (water) state.copy(reelState.water, places + 1)
  }
  run.to(rows)
  if (rows > 0) water?.runTo(at[rows - 1]!)
  state.mirror()
  const { information, score, mean, loads, spread, misfit, distance, readings } = state
  return {
    columns,
    information,
    score,
    mean,
    loads,
    spread,
    misfit,
    distance,
    readings,
    ...(dampAt && { dampAt }),
  }
}

/** How many rows of a tape come before a moment is over. */
const rowsUntil = (moment: Moment, at: Float64Array): number => {
  if ('row' in moment) return moment.row + 1
  const next = at.findIndex((one) => one > moment.at)
  return next < 0 ? at.length : next
}

const isDraw = (kind: number): boolean => kind === tapeKinds.drew || kind === tapeKinds.drewPart

/** Does to a state what the rows of its tape say. */
class Run {
  readonly #state: ReelState
  readonly #water: ReelWater | undefined
  readonly #tape: Tape
  readonly #book: ShelfBook
  readonly #ofMake: MakePrior
  readonly #core: Float64Array
  readonly #linearDensity: number
  #row = 0
  #number = 0

  constructor(
    state: ReelState,
    water: ReelWater | undefined,
    tape: Tape,
    book: ShelfBook,
    make: number,
    point: ShelfPoint,
    linearDensity: number,
  ) {
    this.#state = state
    this.#water = water
    this.#tape = tape
    this.#book = book
    this.#ofMake = book.makes[make]!
    this.#core = point.core
    this.#linearDensity = linearDensity
  }

  /** Runs the rows before this one that were not run. */
  to(end: number): void {
    const { kind } = this.#tape
    while (this.#row < end) {
      if (isDraw(kind[this.#row]!)) this.#feed(end)
      else this.#one()
    }
  }

  /**
   * The draws from here on: n loses λ times the metres of each. What they take is summed first, so that the
   * state's spread and its hold on the shared unknowns are gone through once for all of them.
   */
  #feed(end: number): void {
    const { mean: a, loads: b, spread: p, depth, k } = this.#state
    const { kind, who, columns, numbers } = this.#tape
    const { priors, coreValue, coreSpread } = this.#book
    const core = this.#core
    const sheet = this.#linearDensity
    const ofFeed = priors.feedOfOneDraw.u
    const ofStart = priors.startOfOneDraw.u / 1000
    let metres = 0
    let variance = 0
    let aside = 0
    let i = this.#row
    let from = this.#number
    for (; i < end && isDraw(kind[i]!); i++) {
      const length = numbers[from++]!
      const spread = kind[i] === tapeKinds.drewPart ? numbers[from++]! : 0
      const column = columns[who[i]!]!
      const phi = core[column]!
      const start = core[column + 1]!
      const feed = phi * length * ofFeed
      metres += phi * length + start / 1000
      variance += feed * feed + ofStart * ofStart + phi * phi * spread
      aside += (coreValue[column]! - phi) * length + (coreValue[column + 1]! - start) / 1000
      const load = k + makeUnknowns.count + who[i]!
      b[load]! -= sheet * length * coreSpread[column]!
      b[load + 1]! -= (sheet / 1000) * coreSpread[column + 1]!
    }
    this.#row = i
    this.#number = from
    this.#state.addToNet(reelState.linear, -metres)
    a[reelState.net]! -= sheet * aside
    p[depth + 1]! += sheet * sheet * variance
  }

  /** The row here, which is no draw. */
  #one(): void {
    const { mean: a, spread: p, depth, direct, reading } = this.#state
    const { kind, who, numbers, columns } = this.#tape
    const row = this.#row++
    const from = this.#number
    this.#number += tapeWidth(kind[row]!)
    const first = numbers[from]!
    const second = numbers[from + 1]!
    const { at } = this.#tape
    switch (kind[row]!) {
      case tapeKinds.trimmed:
        a[reelState.net]! -= first
        p[depth + 1]! += second
        break
      case tapeKinds.trimmedDamp:
        this.#water!.runTo(at[row]!)
        this.#water!.trim(first, second)
        break
      case tapeKinds.trimmedLength:
        this.#state.addToNet(reelState.linear, -first)
        p[depth + 1]! += this.#linearDensity * this.#linearDensity * second
        break
      case tapeKinds.ranDry:
        direct.fill(0)
        reading[readingAt.value] = 0
        reading[readingAt.variance] = this.#linearDensity * this.#linearDensity * second
        reading[readingAt.onTare] = 0
        reading[readingAt.onNet] = 1
        reading[readingAt.onLinear] = -first
        reading[readingAt.onWater] = 0
        this.#state.see()
        break
      case tapeKinds.emptied:
        this.#state.replace(reelState.net, 0, 0)
        break
      case tapeKinds.dried:
        this.#water!.runTo(at[row]!)
        this.#water!.driedTo(first, second)
        break
      case tapeKinds.moved:
        this.#water!.runTo(at[row]!)
        this.#water!.movedTo(first, second)
        break
      default: {
        const { tare, density } = this.#ofMake
        const onTare = numbers[from + 5]!
        const onDensity = numbers[from + 6]!
        direct.fill(0)
        direct[makeUnknowns.tare] = onTare * tare.u
        direct[makeUnknowns.density] = onDensity * density.u
        if (who[row]! >= 0) {
          const spread = this.#book.coreSpread[columns[who[row]!]!]!
          direct[makeUnknowns.count + who[row]!] = numbers[from + 7]! * spread
        }
        reading[readingAt.value] = first - onTare * tare.value - onDensity * density.value
        reading[readingAt.variance] = second
        reading[readingAt.onTare] = numbers[from + 2]!
        reading[readingAt.onNet] = numbers[from + 3]!
        reading[readingAt.onLinear] = numbers[from + 4]!
        reading[readingAt.onWater] = 0
        if (kind[row] === tapeKinds.seenDamp) {
          this.#water!.runTo(at[row]!)
          this.#water!.see()
        } else this.#state.see()
      }
    }
  }
}

/** The shared unknowns that a reel meets, where products are expanded, in prior standard deviations. */
const sharedPoint = (
  { coreValue, coreSpread }: ShelfBook,
  point: ShelfPoint,
  make: number,
  columns: Int32Array,
  room: NumberRoom,
): Float64Array => {
  const own = makeUnknowns.count
  const shared = room.take(own + columns.length)
  const ofMake = point.make[make]!
  for (let i = 0; i < own; i++) shared[i] = ofMake[i]!
  for (let i = 0; i < columns.length; i++) {
    const column = columns[i]!
    const spread = coreSpread[column]!
    if (spread > 0) shared[own + i] = (point.core[column]! - coreValue[column]!) / spread
  }
  return shared
}

/** The state as it is at opening. */
const opening = (
  { mean: a, loads: b, spread: p, depth, k }: ReelState,
  { label, upTo }: Tape,
  { tare, overfill, density, nominalArea, areaSpread }: MakePrior,
  priors: ShelfPriors,
): void => {
  const usual = nominalArea * density.value
  const unlabelled = upTo === undefined ? priors.openingWithoutLabel : anyPartOf(upTo)
  const labelled = !Number.isNaN(label)
  a[0] = tare.value
  b[makeUnknowns.tare] = tare.u
  p[0] = priors.carrierOfOneMake.u ** 2
  a[1] = labelled ? label * overfill.value : unlabelled.value
  if (labelled) b[k + makeUnknowns.overfill] = label * overfill.u
  p[depth + 1] = labelled ? (label * priors.overfillOfOneMake.u) ** 2 : unlabelled.u ** 2
  a[2] = usual
  b[2 * k + makeUnknowns.density] = nominalArea * density.u
  b[2 * k + makeUnknowns.area] = usual * areaSpread
  p[2 * depth + 2] = (usual * priors.reelAboutMake.u) ** 2
}
