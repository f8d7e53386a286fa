import { type Measured, measured } from '../units/index.ts'
import { type PacePriors, pacePriors } from './pace-priors.ts'
import { factorise, inverseFromFactor } from './shelf-cholesky.ts'

/** What of a print, or of a part of it, decides how long it takes. */
export interface PlannedRun {
  /** Moves and dwells as planned, s. */
  readonly planned_s: number
  /** What the printer waits for besides; kinds as the reader tells them. */
  readonly waits: readonly { readonly kind: string; readonly times: number }[]
  /** Prints it is made of, each with its preparation; 1 unless given. */
  readonly prints?: number
}

/** Runs that one printer makes one after another, as one. */
export const runInTurn = (runs: readonly PlannedRun[]): PlannedRun => ({
  planned_s: runs.reduce((sum, { planned_s }) => sum + planned_s, 0),
  waits: runs.flatMap(({ waits }) => waits),
  prints: runs.reduce((sum, { prints = 1 }) => sum + prints, 0),
})

/** A finished print, and how long it took by the printer's own word or a person's. */
export interface TimedRun extends PlannedRun {
  readonly took_s: number
}

/**
 * How a printer keeps to the plan: what it needs before the file begins, how much longer its moves
 * take than planned, and how much longer it waits than usual. Logarithms, normal together.
 */
export interface Pace {
  /** ln of the preparation in s, of the factor on moves, of the factor on waits. */
  readonly mean: readonly [preparation: number, moves: number, waits: number]
  /** Row-major, 3 × 3. */
  readonly covariance: Float64Array
  /** Finished prints that it was learnt from. */
  readonly runs: number
}

/** What a pace comes to, beside what was planned and what is usual. */
export interface PaceFigures {
  /** Before the file begins, s. */
  readonly preparation_s: Measured
  /** What moves take over what was planned. */
  readonly moves: Measured
  /** What waits take over what is usual. */
  readonly waits: Measured
}

export const paceFigures = ({ mean, covariance }: Pace): PaceFigures => {
  const figure = (at: 0 | 1 | 2): Measured => {
    const value = Math.exp(mean[at])
    return measured(value, value * Math.sqrt(covariance[4 * at]!))
  }
  return { preparation_s: figure(0), moves: figure(1), waits: figure(2) }
}

/** A time from the start of a print, s, with its standard uncertainty and where 9 of 10 lie. */
export interface Taking {
  readonly value_s: number
  readonly u_s: number
  readonly early_s: number
  readonly late_s: number
}

/** Degrees of freedom of the errors: a print that stood still for an hour must not count as slow. */
const freedom = 4
/** The normal's 95 % point. */
const normal95 = 1.644_853_626_951_472_2

/** Usual waits of a print, s, with a person's apart. */
const waitsOf = (
  { waits }: PlannedRun,
  { waits_s: each, person_s: person }: PacePriors,
): { readonly machine_s: number; readonly person_s: number; readonly personVariance: number } => {
  let machine = 0
  let persons = 0
  for (const { kind, times } of waits) {
    if (kind === 'person') persons += times
    else machine += times * (each[kind] ?? 0)
  }
  return {
    machine_s: machine,
    person_s: persons * person.value,
    personVariance: persons * person.u ** 2,
  }
}

/** When a run ends under a pace, how that changes with it, and how far single runs lie off. */
interface RunEnd {
  readonly gradient: readonly [number, number, number]
  readonly value_s: number
  readonly variance: number
}

const endOf = (
  [preparation, moves, waits]: Pace['mean'],
  run: PlannedRun,
  priors: PacePriors,
): RunEnd => {
  const wait = waitsOf(run, priors)
  const gradient = [
    (run.prints ?? 1) * Math.exp(preparation),
    Math.exp(moves) * run.planned_s,
    Math.exp(waits) * wait.machine_s,
  ] as const
  return {
    gradient,
    value_s: gradient[0] + gradient[1] + gradient[2] + wait.person_s,
    variance: (priors.scatter * gradient[1]) ** 2 + priors.reading_s ** 2 + wait.personVariance,
  }
}

/** The pace of a printer that nobody has timed. */
export const unknownPace = (priors: PacePriors = pacePriors): Pace => {
  const covariance = new Float64Array(9)
  const spreads = [priors.preparation.u, priors.moves.u, priors.waits.u]
  spreads.forEach((u, at) => {
    covariance[4 * at] = u * u
  })
  return {
    mean: [priors.preparation.value, priors.moves.value, priors.waits.value],
    covariance,
    runs: 0,
  }
}

/**
 * The pace learnt from finished prints: the most likely one, and the curvature there.
 *
 * @param runs - times above 0
 * @see docs/method/time.md, section 8
 */
export const learnPace = (runs: readonly TimedRun[], priors: PacePriors = pacePriors): Pace => {
  const prior = unknownPace(priors)
  const mean: [number, number, number] = [...prior.mean]
  let covariance = prior.covariance
  for (let round = 0; round < 100; round++) {
    const normal = new Float64Array(9)
    const pull = [0, 0, 0]
    for (let i = 0; i < 3; i++) {
      const weight = 1 / prior.covariance[4 * i]!
      normal[4 * i] = weight
      pull[i] = weight * (prior.mean[i]! - mean[i]!)
    }
    for (const run of runs) {
      const { gradient, value_s, variance } = endOf(mean, run, priors)
      const off = run.took_s - value_s
      const weight = (freedom + 1) / (freedom + (off * off) / variance) / variance
      for (let i = 0; i < 3; i++) {
        pull[i]! += weight * gradient[i]! * off
        for (let j = 0; j < 3; j++) normal[3 * i + j]! += weight * gradient[i]! * gradient[j]!
      }
    }
    factorise(normal, 3)
    covariance = inverseFromFactor(normal, 3)
    let largest = 0
    for (let i = 0; i < 3; i++) {
      let step = 0
      for (let j = 0; j < 3; j++) step += covariance[3 * i + j]! * pull[j]!
      mean[i]! += Math.max(-0.5, Math.min(0.5, step))
      largest = Math.max(largest, Math.abs(step))
    }
    if (largest < 1e-9) break
  }
  return { mean, covariance, runs: runs.length }
}

/**
 * How long a print, or what of it has been planned so far, takes from its start.
 *
 * First order in the pace's logarithms; the interval is that of a log-normal with this mean and spread.
 */
export const takes = (pace: Pace, run: PlannedRun, priors: PacePriors = pacePriors): Taking => {
  const { gradient, value_s, variance } = endOf(pace.mean, run, priors)
  let sum = variance
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      sum += gradient[i]! * pace.covariance[3 * i + j]! * gradient[j]!
    }
  }
  const u_s = Math.sqrt(sum)
  const factor = Math.exp((normal95 * u_s) / value_s)
  return { value_s, u_s, early_s: value_s / factor, late_s: value_s * factor }
}
