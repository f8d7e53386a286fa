import { makeUnknowns, type ShelfBook } from './shelf-book.ts'
import type { MakePrior, ShelfPriors } from './shelf-priors.ts'
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
}

/** Where products of unknowns are expanded. */
export interface ShelfPoint {
  /** Feed factor and start allowance (mm) of each printer, as core columns. */
  readonly core: Float64Array
  /** Linear density of each reel, g/m. */
  readonly linearDensity: Float64Array
}

/**
 * Runs a tape.
 *
 * @param linearDensity - λ of this reel where products are expanded, g/m
 * @param keepAt - a time: the net after all facts up to and including it is kept as fourth state
 */
export const reelChain = (
  tape: Tape,
  book: ShelfBook,
  make: number,
  point: ShelfPoint,
  linearDensity: number,
  keepAt?: number,
): ReelBlock => {
  const { priors, coreValue, coreSpread } = book
  const { kind, who, numbers, at } = tape
  const columns = columnsOf(tape, 2 * book.printers.length)
  const own = makeUnknowns.count
  const depth = keepAt === undefined ? 3 : 4
  const local = new Map<number, number>()
  for (let i = 0; i < columns.length; i++) local.set(columns[i]!, own + i)
  const { tare, density } = book.makes[make]!
  const state = new ReelState(depth, own + columns.length)
  opening(state, tape, book.makes[make]!, priors)
  const { mean: a, loads: b, spread: p, direct, k } = state
  const sheet = linearDensity
  let kept = keepAt === undefined

  /** n loses metres·λ, of which the length may be off by `variance` (m²). */
  const take = (metres: number, variance: number): void => {
    state.addToNet(reelState.linear, -metres)
    p[depth + 1]! += sheet * sheet * variance
  }

  const rows = kind.length
  let next = 0
  for (let i = 0; i < rows; i++) {
    if (!kept && at[i]! > keepAt!) {
      state.copy(reelState.net, 3)
      kept = true
    }
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
  if (!kept) state.copy(reelState.net, 3)
  const { information, score } = state
  return { columns, information, score, mean: a, loads: b, spread: p }
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
