import type { LinearForm, LinearObservation } from './joint-normal.ts'

/** Where an observation is expanded: the value of each unknown there. */
export type Point = (name: string) => number

/** Something measured or stated, as the model sees it: a value, its own error, and what of. */
export interface Observation {
  /** Stable, snake_case. */
  readonly id: string
  /** In plain words, for the working. */
  readonly what: string
  readonly value: number
  readonly unit: 'g' | 'mm²' | 'g/cm³' | 'g/m'
  /** Variance of its own error, independent of every other observation; may scale with unknowns. */
  readonly varianceAt: (at: Point) => number
  /** What is expected, as a weighted sum of unknowns that is exact at the point given. */
  readonly expand: (at: Point) => LinearForm
}

/**
 * Standard uncertainty below which nothing at a bench is known, in the observation's unit. What is
 * stated as exact is taken to this, so that exact statements which contradict each other come out
 * as a distance and not as a division by nothing.
 */
const finest: Readonly<Record<Observation['unit'], number>> = {
  g: 1e-3,
  'mm²': 1e-6,
  'g/cm³': 1e-6,
  'g/m': 1e-6,
}

/** The scalar update that an observation makes when expanded at a point. */
export const rowAt = (observation: Observation, at: Point): LinearObservation => ({
  form: observation.expand(at),
  value: observation.value,
  variance: Math.max(finest[observation.unit] ** 2, observation.varianceAt(at)),
})

/** `factor · a · b · …` to first order about a point: exact there, and in each unknown alone. */
export const productAt = (names: readonly string[], factor: number, at: Point): LinearForm => {
  const product = factor * names.reduce((sofar, name) => sofar * at(name), 1)
  const terms = Object.fromEntries(
    names.map((name) => [
      name,
      factor * names.reduce((sofar, other) => (other === name ? sofar : sofar * at(other)), 1),
    ]),
  )
  return { terms, constant: (1 - names.length) * product }
}

/** The sum of forms. */
export const sumOf = (...forms: readonly LinearForm[]): LinearForm => {
  const terms: Record<string, number> = {}
  let constant = 0
  for (const form of forms) {
    constant += form.constant ?? 0
    for (const [name, weight] of Object.entries(form.terms)) {
      terms[name] = (terms[name] ?? 0) + weight
    }
  }
  return { terms, constant }
}

/** A form times a number. */
export const scaled = (form: LinearForm, by: number): LinearForm => ({
  terms: Object.fromEntries(Object.entries(form.terms).map(([name, w]) => [name, w * by])),
  constant: (form.constant ?? 0) * by,
})
