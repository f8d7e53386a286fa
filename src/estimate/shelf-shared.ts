import { makeUnknowns } from './shelf-book.ts'
import { factorise, inverseFromFactor, logDeterminant } from './shelf-cholesky.ts'
import type { MakeBlock } from './shelf-make-block.ts'

/** What is believed of everything shared, in prior standard deviations about the prior means. */
export interface SharedPosterior {
  readonly coreSize: number
  readonly coreMean: Float64Array
  /** coreSize × coreSize */
  readonly coreCovariance: Float64Array
  /** For each make: mean of its four unknowns. */
  readonly makeMean: readonly Float64Array[]
  /** For each make: 4 × 4. */
  readonly makeCovariance: readonly Float64Array[]
  /** For each make: its four unknowns with the core, 4 × coreSize. */
  readonly makeWithCore: readonly Float64Array[]
  /**
   * −2 ln of the density of all readings under the model, everything unknown integrated out, less
   * the same constant for every prior: what `learnSpreads` makes small.
   */
  readonly misfit: number
}

const own = makeUnknowns.count

/** Adds up what the makes say of the core, solves it, and puts the solution back into each make. */
export const sharedPosterior = (makes: readonly MakeBlock[], coreSize: number): SharedPosterior => {
  const system = new Float64Array(coreSize * coreSize)
  const right = new Float64Array(coreSize)
  for (let i = 0; i < coreSize; i++) system[i * coreSize + i] = 1
  for (const { columns, information, score } of makes) {
    const size = columns.length
    for (let i = 0; i < size; i++) {
      const row = columns[i]! * coreSize
      right[columns[i]!]! += score[i]!
      for (let j = 0; j < size; j++) system[row + columns[j]!]! += information[i * size + j]!
    }
  }
  factorise(system, coreSize)
  let misfit = logDeterminant(system, coreSize)
  for (const make of makes) misfit += make.misfit
  const coreCovariance = inverseFromFactor(system, coreSize)
  const coreMean = new Float64Array(coreSize)
  for (let i = 0; i < coreSize; i++) {
    for (let j = 0; j < coreSize; j++) {
      coreMean[i]! += coreCovariance[i * coreSize + j]! * right[j]!
    }
  }
  for (let i = 0; i < coreSize; i++) misfit -= right[i]! * coreMean[i]!
  const back = makes.map((make) => backInto(make, coreMean, coreCovariance, coreSize))
  return {
    coreSize,
    coreMean,
    coreCovariance,
    makeMean: back.map(({ mean }) => mean),
    makeCovariance: back.map(({ covariance }) => covariance),
    makeWithCore: back.map(({ withCore }) => withCore),
    misfit,
  }
}

/** mean = α + Γ·μ, cov with core = Γ·Σ, covariance = Π + Γ·Σ·Γᵀ */
const backInto = (
  { columns, mean: alone, loads, spread }: MakeBlock,
  coreMean: Float64Array,
  coreCovariance: Float64Array,
  coreSize: number,
): { mean: Float64Array; covariance: Float64Array; withCore: Float64Array } => {
  const size = columns.length
  const mean = alone.slice()
  const covariance = spread.slice()
  const withCore = new Float64Array(own * coreSize)
  for (let i = 0; i < own; i++) {
    for (let l = 0; l < size; l++) {
      const load = loads[i * size + l]!
      const row = columns[l]! * coreSize
      mean[i]! += load * coreMean[columns[l]!]!
      for (let j = 0; j < coreSize; j++) {
        withCore[i * coreSize + j]! += load * coreCovariance[row + j]!
      }
    }
    for (let j = 0; j < own; j++) {
      for (let l = 0; l < size; l++) {
        covariance[i * own + j]! += withCore[i * coreSize + columns[l]!]! * loads[j * size + l]!
      }
    }
  }
  return { mean, covariance, withCore }
}
