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
  /** How unsure the four unknowns of a make are; reckoned when first asked for. */
  readonly makeSpread: (make: number) => MakeSpread
  /**
   * −2 ln of the density of all readings under the model, everything unknown integrated out, less
   * the same constant for every prior: what `learnSpreads` makes small.
   */
  readonly misfit: number
}

/** Covariances of the four unknowns of a make. */
interface MakeSpread {
  /** 4 × 4 */
  readonly covariance: Float64Array
  /** With the core: 4 × coreSize. */
  readonly withCore: Float64Array
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
  const spreads: MakeSpread[] = []
  return {
    coreSize,
    coreMean,
    coreCovariance,
    makeMean: makes.map((make) => meanOf(make, coreMean)),
    makeSpread: (make) => (spreads[make] ??= spreadOf(makes[make]!, coreCovariance, coreSize)),
    misfit,
  }
}

/** α + Γ·μ */
const meanOf = ({ columns, mean, loads }: MakeBlock, coreMean: Float64Array): Float64Array => {
  const size = columns.length
  const sum = mean.slice()
  for (let i = 0; i < own; i++) {
    for (let l = 0; l < size; l++) sum[i]! += loads[i * size + l]! * coreMean[columns[l]!]!
  }
  return sum
}

/** With the core Γ·Σ, covariance Π + Γ·Σ·Γᵀ. */
const spreadOf = (
  { columns, loads, spread }: MakeBlock,
  coreCovariance: Float64Array,
  coreSize: number,
): MakeSpread => {
  const size = columns.length
  const covariance = spread.slice()
  const withCore = new Float64Array(own * coreSize)
  for (let i = 0; i < own; i++) {
    for (let l = 0; l < size; l++) {
      const load = loads[i * size + l]!
      const row = columns[l]! * coreSize
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
  return { covariance, withCore }
}
