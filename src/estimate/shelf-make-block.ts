import { makeUnknowns } from './shelf-book.ts'
import type { ReelBlock } from './shelf-chain.ts'
import { factorise, inverseFromFactor, logDeterminant } from './shelf-cholesky.ts'

/**
 * A make with all its reels eliminated, seen from the core c: its own four unknowns are
 * N(α + Γ·c, Π), and of the core alone it says the information J and the score s.
 */
export interface MakeBlock {
  /** Core columns met by any of its reels. */
  readonly columns: Int32Array
  /** J: size × size, size = columns. */
  readonly information: Float64Array
  /** s: size. */
  readonly score: Float64Array
  /** α: 4. */
  readonly mean: Float64Array
  /** Γ: 4 × size. */
  readonly loads: Float64Array
  /** Π: 4 × 4. */
  readonly spread: Float64Array
  /** What its reels' misfits come to with its four unknowns integrated out, at c = 0. */
  readonly misfit: number
}

const own = makeUnknowns.count

/** Sums what the reels of a make say and eliminates its four unknowns, each N(0, 1) beforehand. */
export const makeBlock = (reels: readonly ReelBlock[]): MakeBlock => {
  const place = new Map<number, number>()
  for (const { columns: its } of reels) {
    for (let i = 0; i < its.length; i++) {
      if (!place.has(its[i]!)) place.set(its[i]!, own + place.size)
    }
  }
  const columns = Int32Array.from(place.keys())
  const size = columns.length
  const all = own + size
  const sum = new Float64Array(all * all)
  const right = new Float64Array(all)
  const at = new Int32Array(all)
  for (let i = 0; i < own; i++) at[i] = i
  for (const { columns: its, information, score } of reels) {
    const k = own + its.length
    for (let i = own; i < k; i++) at[i] = place.get(its[i - own]!)!
    for (let i = 0; i < k; i++) {
      const to = at[i]! * all
      right[at[i]!]! += score[i]!
      for (let j = 0; j < k; j++) sum[to + at[j]!]! += information[i * k + j]!
    }
  }

  const inner = new Float64Array(own * own)
  for (let i = 0; i < own; i++) {
    for (let j = 0; j < own; j++) inner[i * own + j] = sum[i * all + j]! + (i === j ? 1 : 0)
  }
  factorise(inner, own)
  let misfit = logDeterminant(inner, own)
  const spread = inverseFromFactor(inner, own)
  const mean = new Float64Array(own)
  const loads = new Float64Array(own * size)
  for (let i = 0; i < own; i++) {
    for (let l = 0; l < own; l++) {
      const weight = spread[i * own + l]!
      mean[i]! += weight * right[l]!
      for (let j = 0; j < size; j++) loads[i * size + j]! -= weight * sum[l * all + own + j]!
    }
  }
  for (const reel of reels) misfit += reel.misfit
  for (let i = 0; i < own; i++) misfit -= right[i]! * mean[i]!
  const information = new Float64Array(size * size)
  const score = new Float64Array(size)
  for (let i = 0; i < size; i++) {
    const row = (own + i) * all
    score[i] = right[own + i]!
    for (let j = 0; j < size; j++) information[i * size + j] = sum[row + own + j]!
    for (let l = 0; l < own; l++) {
      const across = sum[row + l]!
      score[i]! -= across * mean[l]!
      for (let j = 0; j < size; j++) information[i * size + j]! += across * loads[l * size + j]!
    }
  }
  return { columns, information, score, mean, loads, spread, misfit }
}
