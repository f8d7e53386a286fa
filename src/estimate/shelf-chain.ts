import { makeUnknowns, type ShelfBook } from './shelf-book.ts'
import type { DampPoint } from './shelf-damp-mass.ts'
import type { MakePrior, ShelfPriors } from './shelf-priors.ts'
import { ReelWater } from './shelf-reel-water.ts'
import { ReelState, reelState } from './shelf-state.ts'
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
 */
export const reelChain = (
  tape: Tape,
  book: ShelfBook,
  make: number,
  point: ShelfPoint,
  linearDensity: number,
  moment?: Moment,
): ReelBlock => {
  const { priors, coreValue, coreSpread } = book
  const { kind, who, numbers, at } = tape
  const columns = columnsOf(tape, 2 * book.printers.length)
  const own = makeUnknowns.count
  const { tare, density, water: ofMake } = book.makes[make]!
  const isDamp = tape.water !== undefined && ofMake !== undefined
  const places = isDamp ? 4 : 3
  const depth = moment === undefined ? places : isDamp ? 6 : 4
  const local = new Map<number, number>()
  for (let i = 0; i < columns.length; i++) local.set(columns[i]!, own + i)
  const state = new ReelState(depth, own + columns.length)
  opening(state, tape, book.makes[make]!, priors)
  const { mean: a, loads: b, spread: p, direct, k } = state
  const water = isDamp
    ? new ReelWater(state, tape.water, ofMake, sharedPoint(book, point, make, columns))
    : undefined
  const sheet = linearDensity
  let kept = moment === undefined
  let dampAt: DampPoint | undefined

  /** n loses metres·λ, of which the length may be off by `variance` (m²). */
  const take = (metres: number, variance: number): void => {
    state.addToNet(reelState.linear, -metres)
    p[depth + 1]! += sheet * sheet * variance
  }

  /** The net, and the water, become states of their own as they are at the time to keep. */
  const keep = (): void => {
    state.copy(reelState.net, places)
    if (water) water.runTo('at' in moment! ? moment.at : at[moment!.row]!)
    if (water) state.copy(reelState.water, places + 1)
    kept = true
  }

  const rows = kind.length
  let next = 0
  for (let i = 0; i < rows; i++) {
    if (!kept && ('at' in moment! ? at[i]! > moment.at : i > moment!.row)) keep()
    const from = next
    next += tapeWidth(kind[i]!)
    const first = numbers[from]!
    const second = numbers[from + 1]!
    const column = who[i]!
    switch (kind[i]!) {
      case tapeKinds.drew: {
        const phi = point.core[column]!
        const start = point.core[column + 1]!
        const feed = phi * first * priors.feedOfOneDraw.u
        const ofStart = priors.startOfOneDraw.u / 1000
        take(phi * first + start / 1000, feed * feed + ofStart * ofStart + phi * phi * second)
        const j = local.get(column)!
        a[1]! -=
          sheet * ((coreValue[column]! - phi) * first + (coreValue[column + 1]! - start) / 1000)
        b[k + j]! -= sheet * first * coreSpread[column]!
        b[k + j + 1]! -= (sheet / 1000) * coreSpread[column + 1]!
        break
      }
      case tapeKinds.trimmed:
        a[1]! -= first
        p[depth + 1]! += second
        break
      case tapeKinds.trimmedDamp:
        water!.runTo(at[i]!)
        water!.trim(first, second)
        break
      case tapeKinds.trimmedLength:
        take(first, second)
        break
      case tapeKinds.ranDry:
        direct.fill(0)
        state.see(0, sheet * sheet * second, 0, 1, -first, 0)
        break
      case tapeKinds.emptied:
        state.replace(reelState.net, 0, 0)
        break
      case tapeKinds.dried:
        water!.runTo(at[i]!)
        water!.driedTo(first, second)
        break
      case tapeKinds.moved:
        water!.runTo(at[i]!)
        water!.movedTo(first, second)
        break
      case tapeKinds.seenDamp:
        water!.runTo(at[i]!)
        direct.fill(0)
        direct[local.get(column)!] = numbers[from + 7]! * coreSpread[column]!
        {
          const [onTare, onNet, onLinear] = numbers.subarray(from + 2, from + 5)
          const expanded = water!.see(first, second, onTare!, onNet!, onLinear!)
          if (moment && 'row' in moment && i === moment.row) dampAt = expanded
        }
        break
      default: {
        const onMakeTare = numbers[from + 5]!
        const onDensity = numbers[from + 6]!
        direct.fill(0)
        direct[makeUnknowns.tare] = onMakeTare * tare.u
        direct[makeUnknowns.density] = onDensity * density.u
        if (column >= 0) direct[local.get(column)!] = numbers[from + 7]! * coreSpread[column]!
        const value = first - onMakeTare * tare.value - onDensity * density.value
        state.see(value, second, numbers[from + 2]!, numbers[from + 3]!, numbers[from + 4]!, 0)
      }
    }
  }
  if (!kept) keep()
  if (rows > 0) water?.runTo(at[rows - 1]!)
  const { information, score, misfit } = state
  return {
    columns,
    information,
    score,
    mean: a,
    loads: b,
    spread: p,
    misfit,
    ...(dampAt && { dampAt }),
  }
}

/** The shared unknowns that a reel meets, where products are expanded, in prior standard deviations. */
const sharedPoint = (
  { coreValue, coreSpread }: ShelfBook,
  point: ShelfPoint,
  make: number,
  columns: Int32Array,
): Float64Array => {
  const own = makeUnknowns.count
  const shared = new Float64Array(own + columns.length)
  shared.set(point.make[make]!)
  for (const [i, column] of columns.entries()) {
    const spread = coreSpread[column]!
    if (spread > 0) shared[own + i] = (point.core[column]! - coreValue[column]!) / spread
  }
  return shared
}

/** The state as it is at opening. */
const opening = (
  { mean: a, loads: b, spread: p, depth, k }: ReelState,
  { label }: Tape,
  { tare, overfill, density, nominalArea, areaSpread }: MakePrior,
  priors: ShelfPriors,
): void => {
  const usual = nominalArea * density.value
  const unlabelled = priors.openingWithoutLabel
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

/** Core columns that a tape meets, each once; a printer brings two. */
const columnsOf = ({ who }: Tape, printerColumns: number): Int32Array => {
  const found: number[] = []
  let last = -1
  for (const column of who) {
    if (column === last || column < 0 || found.includes(column)) continue
    last = column
    found.push(column)
    if (column < printerColumns) found.push(column + 1)
  }
  return Int32Array.from(found)
}
