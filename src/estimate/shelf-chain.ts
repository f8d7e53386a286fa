import { makeUnknowns, type ShelfBook } from './shelf-book.ts'
import { type Tape, tapeKinds, tapeWidth } from './shelf-tape.ts'

/*
 * One reel through time.
 *
 * The reel's own state is x = (tare t, net n, linear density λ), and where its net at some time is
 * wanted, a fourth that keeps n as it was then. The shared unknowns u are not filtered: the state is
 * carried as a function of them,
 *
 *     x given u  ~  N(a + B·u, P)
 *
 * and every reading y = h·x + d·u + error leaves behind, with w = h·B + d, e = y − h·a and
 * S = h·P·hᵀ + r, what it says of u alone:  J += w·wᵀ/S,  s += w·e/S.  This is the elimination of the
 * reel (all its draws' errors included) onto the shared unknowns, done in the order of time: the
 * errors of draws between weighings stay in P and correlate what comes later. Work per fact is k for
 * a draw and k² for a reading, where k is 4 and the printers' and scales' columns that this reel met.
 *
 * Invariant: columns 0 to 3 of u are the make's, column 4 + i is core column `columns[i]`.
 * B is row-major, depth × k; P is row-major, depth × depth, symmetric; J is row-major k × k.
 */

/** What one reel (or the facts of a make without a reel) says, seen from the shared unknowns. */
export interface ReelBlock {
  /** Core columns met, in the order met. */
  readonly columns: Int32Array
  /** J: k × k, k = 4 + columns. */
  readonly information: Float64Array
  /** s: k. */
  readonly score: Float64Array
  /** a */
  readonly mean: Float64Array
  /** B: depth × k. */
  readonly loads: Float64Array
  /** P: depth × depth. */
  readonly spread: Float64Array
  /** Σ ln S + e²/S over its readings, e as it is at u = 0. */
  readonly misfit: number
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
  const k = own + columns.length
  const depth = keepAt === undefined ? 3 : 4
  const local = new Map<number, number>()
  for (let i = 0; i < columns.length; i++) local.set(columns[i]!, own + i)

  const { tare, overfill, density, nominalArea, areaSpread } = book.makes[make]!
  const usual = nominalArea * density.value
  const opening = priors.openingWithoutLabel
  const { label } = tape
  const labelled = !Number.isNaN(label)
  // One piece of memory for all that is kept: many small ones cost more than the arithmetic.
  const room = new Float64Array(k * k + k + depth * (1 + k + depth))
  let used = 0
  const part = (size: number): Float64Array => room.subarray(used, (used += size))
  const information = part(k * k)
  const score = part(k)
  const a = part(depth)
  const b = part(depth * k)
  const p = part(depth * depth)
  a[0] = tare.value
  b[makeUnknowns.tare] = tare.u
  p[0] = priors.carrierOfOneMake.u ** 2
  a[1] = labelled ? label * overfill.value : opening.value
  if (labelled) b[k + makeUnknowns.overfill] = label * overfill.u
  p[depth + 1] = labelled ? (label * priors.overfillOfOneMake.u) ** 2 : opening.u ** 2
  a[2] = usual
  b[2 * k + makeUnknowns.density] = nominalArea * density.u
  b[2 * k + makeUnknowns.area] = usual * areaSpread
  p[2 * depth + 2] = (usual * priors.reelAboutMake.u) ** 2

  const w = new Float64Array(k)
  const ph = new Float64Array(depth)
  const sheet = linearDensity
  let kept = keepAt === undefined
  let misfit = 0

  /** n loses metres·λ, of which the mean length may be off by `variance` (m²). */
  const take = (metres: number, variance: number): void => {
    a[1]! -= metres * a[2]!
    for (let j = 0; j < k; j++) b[k + j]! -= metres * b[2 * k + j]!
    const old = p[depth + 2]!
    const across = p[2 * depth + 2]!
    p[depth + 1]! += metres * (metres * across - 2 * old) + sheet * sheet * variance
    for (let j = 0; j < depth; j++) {
      if (j === 1) continue
      const entry = p[depth + j]! - metres * p[2 * depth + j]!
      p[depth + j] = entry
      p[j * depth + 1] = entry
    }
  }

  /** Takes in value = hT·t + hN·n + hL·λ + w·u + error; w comes in holding the direct part. */
  const see = (value: number, variance: number, hT: number, hN: number, hL: number): void => {
    let e = value - hT * a[0]! - hN * a[1]! - hL * a[2]!
    for (let i = 0; i < depth; i++) {
      const from = i * depth
      ph[i] = hT * p[from]! + hN * p[from + 1]! + hL * p[from + 2]!
    }
    const s = hT * ph[0]! + hN * ph[1]! + hL * ph[2]! + variance
    for (let j = 0; j < k; j++) w[j]! += hT * b[j]! + hN * b[k + j]! + hL * b[2 * k + j]!
    for (let i = 0; i < k; i++) {
      const share = w[i]! / s
      if (share === 0) continue
      const from = i * k
      for (let j = 0; j < k; j++) information[from + j]! += share * w[j]!
      score[i]! += share * e
    }
    misfit += Math.log(s) + (e * e) / s
    e /= s
    for (let i = 0; i < depth; i++) {
      const gain = ph[i]! / s
      if (gain === 0) continue
      a[i]! += ph[i]! * e
      const from = i * k
      for (let j = 0; j < k; j++) b[from + j]! -= gain * w[j]!
      for (let j = 0; j < depth; j++) p[i * depth + j]! -= gain * ph[j]!
    }
    // Joseph's form: takes back what the line above loses where an unknown was vague before.
    for (let i = 0; i < depth; i++) {
      const from = i * depth
      const along = hT * p[from]! + hN * p[from + 1]! + hL * p[from + 2]!
      const rest = (variance * ph[i]!) / s - along
      for (let j = 0; j <= i; j++) {
        const entry = p[from + j]! + (rest * ph[j]!) / s
        p[from + j] = entry
        p[j * depth + i] = entry
      }
    }
  }

  const rows = kind.length
  let next = 0
  for (let i = 0; i < rows; i++) {
    if (!kept && at[i]! > keepAt!) {
      keepNet(a, b, p, k)
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
        a[1] -=
          sheet * ((coreValue[column]! - phi) * first + (coreValue[column + 1]! - start) / 1000)
        b[k + j]! -= sheet * first * coreSpread[column]!
        b[k + j + 1]! -= (sheet / 1000) * coreSpread[column + 1]!
        break
      }
      case tapeKinds.trimmed:
        a[1] -= first
        p[depth + 1]! += second
        break
      case tapeKinds.trimmedLength:
        take(first, second)
        break
      case tapeKinds.ranDry:
        w.fill(0)
        see(0, sheet * sheet * second, 0, 1, -first)
        break
      default: {
        const onMakeTare = numbers[from + 5]!
        const onDensity = numbers[from + 6]!
        w.fill(0)
        w[makeUnknowns.tare] = onMakeTare * tare.u
        w[makeUnknowns.density] = onDensity * density.u
        if (column >= 0) w[local.get(column)!] = numbers[from + 7]! * coreSpread[column]!
        const value = first - onMakeTare * tare.value - onDensity * density.value
        see(value, second, numbers[from + 2]!, numbers[from + 3]!, numbers[from + 4]!)
      }
    }
  }
  if (!kept) keepNet(a, b, p, k)
  return { columns, information, score, mean: a, loads: b, spread: p, misfit }
}

/** The fourth state becomes a copy of the net as it is. */
const keepNet = (a: Float64Array, b: Float64Array, p: Float64Array, k: number): void => {
  a[3] = a[1]!
  b.copyWithin(3 * k, k, 2 * k)
  p.copyWithin(12, 4, 8)
  for (let i = 0; i < 3; i++) p[4 * i + 3] = p[4 * i + 1]!
  p[15] = p[5]!
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
