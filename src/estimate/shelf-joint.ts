import type { JointNormal } from './joint-normal.ts'
import { makeUnknowns } from './shelf-book.ts'
import type { ReelBlock } from './shelf-chain.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'

/** One row of a joint: a state of the reel's block, a core column, or a weighted sum of a make's. */
export type Wanted = { readonly name: string } & (
  | { readonly state: number }
  | { readonly column: number }
  | {
      readonly value: number
      /** Place among the make's unknowns, and weight. */
      readonly ofMake: readonly (readonly [number, number])[]
    }
)

const own = makeUnknowns.count

/** The joint of what is wanted of one reel, its make and the core. */
export const jointOfReel = (
  { book, shared }: ShelfEstimate,
  block: ReelBlock,
  make: number,
  wanted: readonly Wanted[],
): JointNormal => {
  const size = wanted.length
  const k = own + block.columns.length
  const columns = Array.from(block.columns)
  for (const one of wanted) {
    if ('column' in one && !columns.includes(one.column)) columns.push(one.column)
  }
  const all = own + columns.length
  // rows: each name as a weighted sum of the make's four and the columns met or asked
  const rows = new Float64Array(size * all)
  const mean = new Float64Array(size)
  for (const [i, one] of wanted.entries()) {
    if ('state' in one) {
      mean[i] = block.mean[one.state]!
      rows.set(block.loads.subarray(one.state * k, (one.state + 1) * k), i * all)
    } else if ('column' in one) {
      mean[i] = book.coreValue[one.column]!
      rows[i * all + own + columns.indexOf(one.column)] = book.coreSpread[one.column]!
    } else {
      mean[i] = one.value
      for (const [place, weight] of one.ofMake) rows[i * all + place] = weight
    }
  }
  const { u, covariance: between } = localShared(shared, make, columns)
  const covariance = new Float64Array(size * size)
  const carried = new Float64Array(all)
  const depth = block.mean.length
  for (let i = 0; i < size; i++) {
    const stateOfRow = stateOf(wanted[i]!)
    carried.fill(0)
    for (let l = 0; l < all; l++) {
      const weight = rows[i * all + l]!
      if (weight === 0) continue
      mean[i]! += weight * u[l]!
      for (let j = 0; j < all; j++) carried[j]! += weight * between[l * all + j]!
    }
    for (let j = 0; j <= i; j++) {
      const other = stateOf(wanted[j]!)
      let sum = stateOfRow < 0 || other < 0 ? 0 : block.spread[stateOfRow * depth + other]!
      for (let l = 0; l < all; l++) sum += carried[l]! * rows[j * all + l]!
      covariance[i * size + j] = sum
      covariance[j * size + i] = sum
    }
  }
  return { names: wanted.map(({ name }) => name), mean, covariance }
}

const stateOf = (one: Wanted): number => ('state' in one ? one.state : -1)

/** Mean and covariance of a make's four unknowns followed by some core columns. */
export const localShared = (
  { coreSize, coreMean, coreCovariance, makeMean, makeSpread }: ShelfEstimate['shared'],
  make: number,
  columns: ArrayLike<number>,
): { u: Float64Array; covariance: Float64Array } => {
  const all = own + columns.length
  const u = new Float64Array(all)
  const covariance = new Float64Array(all * all)
  const ofMake = makeSpread(make)
  u.set(makeMean[make]!)
  for (let i = 0; i < all; i++) {
    const row = i - own
    if (row >= 0) u[i] = coreMean[columns[row]!]!
    for (let j = 0; j <= i; j++) {
      const entry =
        row < 0
          ? ofMake.covariance[i * own + j]!
          : j < own
            ? ofMake.withCore[j * coreSize + columns[row]!]!
            : coreCovariance[columns[row]! * coreSize + columns[j - own]!]!
      covariance[i * all + j] = entry
      covariance[j * all + i] = entry
    }
  }
  return { u, covariance }
}

/** Mean of one state of a reel's block. */
export const meanOfState = (
  { coreMean, makeMean }: ShelfEstimate['shared'],
  make: number,
  { columns, mean, loads }: ReelBlock,
  state: number,
): number => {
  const ofMake = makeMean[make]!
  const from = state * (own + columns.length)
  let sum = mean[state]!
  for (let i = 0; i < own; i++) sum += loads[from + i]! * ofMake[i]!
  for (let i = 0; i < columns.length; i++) sum += loads[from + own + i]! * coreMean[columns[i]!]!
  return sum
}

/** Variance of a weighted sum of a make's four unknowns followed by some core columns. */
export const varianceOfShared = (
  { coreSize, coreCovariance, makeSpread }: ShelfEstimate['shared'],
  make: number,
  columns: Int32Array,
  weights: Float64Array,
): number => {
  const { covariance: ofMake, withCore: across } = makeSpread(make)
  let sum = 0
  for (let i = 0; i < own; i++) {
    for (let j = 0; j < own; j++) sum += weights[i]! * ofMake[i * own + j]! * weights[j]!
  }
  for (let i = 0; i < columns.length; i++) {
    const column = columns[i]!
    const weight = weights[own + i]!
    let before = 0
    for (let j = 0; j < own; j++) before += weights[j]! * across[j * coreSize + column]!
    for (let j = 0; j < i; j++) {
      before += weights[own + j]! * coreCovariance[column * coreSize + columns[j]!]!
    }
    sum += weight * (2 * before + weight * coreCovariance[column * coreSize + column]!)
  }
  return sum
}
