import { DomainError, type Measured, measured } from '../units/index.ts'

/**
 * Several unknowns, jointly normal. Immutable by convention: every function below returns a new
 * one. Sizes are small (a reel has about ten unknowns), so the covariance is dense.
 */
export interface JointNormal {
  /** Distinct names; the place of a name is its row. */
  readonly names: readonly string[]
  /** One entry a name. */
  readonly mean: Float64Array
  /** Row-major, n × n, symmetric, positive semidefinite. */
  readonly covariance: Float64Array
}

/** A weighted sum of unknowns, plus a constant: `Σ weight·unknown + constant`. */
export interface LinearForm {
  readonly terms: Readonly<Record<string, number>>
  readonly constant?: number
}

/** A reading of a linear form with an error of its own, independent of everything else. */
export interface LinearObservation {
  readonly form: LinearForm
  readonly value: number
  /** Variance of the reading's own error, ≥ 0; 0 is an exact statement. */
  readonly variance: number
}

/** What an observation did to the joint. */
export interface Conditioned {
  readonly joint: JointNormal
  /** Observed minus expected. */
  readonly innovation: number
  /** Standard deviation that the innovation had before it was seen. */
  readonly innovationSd: number
}

/**
 * Independent unknowns, each with a value and a standard uncertainty.
 *
 * @throws DomainError `not_finite`, `uncertainty_negative`
 */
export const jointNormal = (unknowns: Readonly<Record<string, Measured>>): JointNormal =>
  extend({ names: [], mean: new Float64Array(0), covariance: new Float64Array(0) }, unknowns)

/**
 * The same unknowns and some more, the new ones independent of the old.
 *
 * @throws DomainError `unknown_twice`, `not_finite`, `uncertainty_negative`
 */
export const extend = (
  joint: JointNormal,
  unknowns: Readonly<Record<string, Measured>>,
): JointNormal => {
  const added = Object.entries(unknowns)
  const old = joint.names.length
  const size = old + added.length
  const names = [...joint.names]
  const mean = new Float64Array(size)
  const covariance = new Float64Array(size * size)
  mean.set(joint.mean)
  for (let i = 0; i < old; i++) {
    covariance.set(joint.covariance.subarray(i * old, (i + 1) * old), i * size)
  }
  for (const [name, { value, u }] of added) {
    if (names.includes(name)) throw new DomainError('unknown_twice', `${name} is there already`)
    if (!Number.isFinite(value) || !Number.isFinite(u)) {
      throw new DomainError('not_finite', `${name} is ${value} ± ${u}`)
    }
    if (u < 0) throw new DomainError('uncertainty_negative', `${name} is ${value} ± ${u}`)
    const i = names.push(name) - 1
    mean[i] = value
    covariance[i * size + i] = u * u
  }
  return { names, mean, covariance }
}

/** The weights of a form in the order of the names. */
const rowOf = (joint: JointNormal, form: LinearForm): Float64Array => {
  const row = new Float64Array(joint.names.length)
  for (const { place, weight } of fewOf(joint, form)) row[place] = weight
  return row
}

/** An unknown that a form has a weight on. */
interface Weighted {
  readonly place: number
  readonly weight: number
}

/** The weights of a form that are there, by their places: most forms have one or two. */
const fewOf = (joint: JointNormal, { terms }: LinearForm): readonly Weighted[] => {
  const few: Weighted[] = []
  for (const name in terms) {
    const weight = terms[name]!
    const place = joint.names.indexOf(name)
    if (place < 0) throw new DomainError('unknown_name', `there is no unknown named ${name}`)
    if (!Number.isFinite(weight)) throw new DomainError('not_finite', `${name} weighs ${weight}`)
    few.push({ place, weight })
  }
  return few.length < 2 ? few : few.toSorted((a, b) => a.place - b.place)
}

/** Covariance of two forms. */
const between = (
  { names, covariance }: JointNormal,
  a: readonly Weighted[],
  b: readonly Weighted[],
): number => {
  let sum = 0
  for (const { place: i, weight } of a) {
    let along = 0
    for (const { place: j, weight: other } of b) along += covariance[i * names.length + j]! * other
    sum += weight * along
  }
  return sum
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}

/** Covariance times a row. */
const spreadOf = (joint: JointNormal, row: Float64Array): Float64Array => {
  const size = row.length
  const spread = new Float64Array(size)
  for (let i = 0; i < size; i++) {
    spread[i] = dot(joint.covariance.subarray(i * size, (i + 1) * size), row)
  }
  return spread
}

/** `(I − k·hᵀ)·P·(I − k·hᵀ)ᵀ + k·r·kᵀ`, the lower half computed and mirrored. */
const josephUpdate = (
  prior: Float64Array,
  h: Float64Array,
  k: Float64Array,
  r: number,
): Float64Array => {
  const size = h.length
  const half = new Float64Array(size * size)
  for (let j = 0; j < size; j++) {
    let column = 0
    for (let l = 0; l < size; l++) column += h[l]! * prior[l * size + j]!
    for (let i = 0; i < size; i++) {
      half[i * size + j] = prior[i * size + j]! - k[i]! * column
    }
  }
  const after = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    const along = dot(half.subarray(i * size, (i + 1) * size), h)
    for (let j = 0; j <= i; j++) {
      const kj = k[j]!
      const entry = half[i * size + j]! - along * kj + k[i]! * r * kj
      after[i * size + j] = entry
      after[j * size + i] = entry
    }
  }
  return after
}

/**
 * The joint after one scalar observation. The covariance is updated in Joseph's form
 * `(I − k·hᵀ)·P·(I − k·hᵀ)ᵀ + k·r·kᵀ`, which stays symmetric and positive semidefinite where the
 * shorter `(I − k·hᵀ)·P` loses both, as it does after a precise reading of a vague unknown.
 *
 * @throws DomainError `unknown_name`, `not_finite`, `variance_negative`, and `contradiction` for an
 * exact statement about something that is already exact and different
 * @see Bucy and Joseph (1968), from memory
 */
export const condition = (joint: JointNormal, observation: LinearObservation): Conditioned => {
  const { form, value, variance } = observation
  if (!Number.isFinite(value)) throw new DomainError('not_finite', `the reading is ${value}`)
  if (!(variance >= 0 && variance < Infinity)) {
    throw new DomainError('variance_negative', `the variance of the reading is ${variance}`)
  }
  const row = rowOf(joint, form)
  const spread = spreadOf(joint, row)
  const innovation = value - dot(row, joint.mean) - (form.constant ?? 0)
  const innovationVariance = Math.max(0, dot(row, spread)) + variance
  if (innovationVariance === 0) {
    if (Math.abs(innovation) > 1e-9 * Math.max(1, Math.abs(value))) {
      throw new DomainError('contradiction', `two exact statements differ by ${innovation}`)
    }
    return { joint, innovation, innovationSd: 0 }
  }
  const gain = spread.map((s) => s / innovationVariance)
  const mean = joint.mean.map((m, i) => m + gain[i]! * innovation)
  const covariance = josephUpdate(joint.covariance, row, gain, variance)
  return {
    joint: { names: joint.names, mean, covariance },
    innovation,
    innovationSd: Math.sqrt(innovationVariance),
  }
}

/**
 * Value and standard uncertainty of a weighted sum of the unknowns, all covariances kept.
 *
 * @throws DomainError `unknown_name`, `not_finite`
 */
export const marginal = (joint: JointNormal, form: LinearForm): Measured => {
  const few = fewOf(joint, form)
  let value = 0
  for (const { place, weight } of few) value += weight * joint.mean[place]!
  return measured(value + (form.constant ?? 0), Math.sqrt(Math.max(0, between(joint, few, few))))
}

/**
 * Covariance of two weighted sums of the unknowns.
 *
 * @throws DomainError `unknown_name`, `not_finite`
 */
export const covarianceOf = (joint: JointNormal, a: LinearForm, b: LinearForm): number =>
  between(joint, fewOf(joint, a), fewOf(joint, b))

/**
 * Covariance of each unknown with a weighted sum of them, in the order of the names.
 *
 * @throws DomainError `unknown_name`, `not_finite`
 */
export const spreadOfForm = (joint: JointNormal, form: LinearForm): Float64Array =>
  spreadOf(joint, rowOf(joint, form))

/** The mean of one unknown. @throws DomainError `unknown_name` */
export const meanOf = (joint: JointNormal, name: string): number =>
  marginal(joint, { terms: { [name]: 1 } }).value
