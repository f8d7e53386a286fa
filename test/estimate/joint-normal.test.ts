import * as fc from 'fast-check'
import { inverse, Matrix } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import {
  condition,
  covarianceOf,
  extend,
  type JointNormal,
  jointNormal,
  type LinearObservation,
  marginal,
} from '../../src/estimate/index.ts'

const names = ['a', 'b', 'c', 'd']

/** The slow twin: one batch solution of the normal equations (P⁻¹ + Hᵀ·R⁻¹·H)·x = P⁻¹·m + Hᵀ·R⁻¹·y. */
const batch = (
  prior: readonly { value: number; u: number }[],
  rows: readonly { weights: readonly number[]; value: number; u: number }[],
): { mean: Matrix; covariance: Matrix } => {
  const information = Matrix.diag(prior.map(({ u }) => 1 / u ** 2))
  const right = Matrix.columnVector(prior.map(({ value, u }) => value / u ** 2))
  for (const { weights, value, u } of rows) {
    const h = Matrix.rowVector([...weights])
    information.add(
      h
        .transpose()
        .mmul(h)
        .div(u ** 2),
    )
    right.add(h.transpose().mul(value / u ** 2))
  }
  const covariance = inverse(information)
  return { mean: covariance.mmul(right), covariance }
}

const sizes = fc.double({ min: -20, max: 20, noNaN: true })
const spreads = fc.double({ min: 0.05, max: 20, noNaN: true })
const quantity = fc.record({ value: sizes, u: spreads })
const row = fc.record({
  weights: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 4, maxLength: 4 }),
  value: sizes,
  u: spreads,
})
const system = fc.record({
  prior: fc.array(quantity, { minLength: 4, maxLength: 4 }),
  rows: fc.array(row, { minLength: 1, maxLength: 8 }),
})

const observation = ({
  weights,
  value,
  u,
}: {
  weights: readonly number[]
  value: number
  u: number
}): LinearObservation => ({
  form: { terms: Object.fromEntries(names.map((name, i) => [name, weights[i]!])) },
  value,
  variance: u ** 2,
})

const sequential = (
  prior: readonly { value: number; u: number }[],
  rows: readonly LinearObservation[],
): JointNormal =>
  rows.reduce(
    (joint, one) => condition(joint, one).joint,
    jointNormal(Object.fromEntries(names.map((name, i) => [name, prior[i]!]))),
  )

describe('conditioning', () => {
  it('agrees with the batch solution of the normal equations', () => {
    fc.assert(
      fc.property(system, ({ prior, rows }) => {
        const joint = sequential(prior, rows.map(observation))
        const { mean, covariance } = batch(prior, rows)
        for (let i = 0; i < 4; i++) {
          const scale = Math.sqrt(covariance.get(i, i))
          expect(Math.abs(joint.mean[i]! - mean.get(i, 0)) / scale).toBeLessThan(1e-6)
          for (let j = 0; j < 4; j++) {
            const size = scale * Math.sqrt(covariance.get(j, j))
            expect(Math.abs(joint.covariance[4 * i + j]! - covariance.get(i, j))).toBeLessThan(
              1e-6 * size,
            )
          }
        }
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  it('does not care about the order', () => {
    fc.assert(
      fc.property(system, ({ prior, rows }) => {
        const there = sequential(prior, rows.map(observation))
        const back = sequential(prior, rows.toReversed().map(observation))
        for (let i = 0; i < 16; i++) {
          expect(there.covariance[i]).toBeCloseTo(back.covariance[i]!, 7)
        }
        for (let i = 0; i < 4; i++) expect(there.mean[i]).toBeCloseTo(back.mean[i]!, 6)
      }),
      { seed: 2, numRuns: 300 },
    )
  })

  it('never widens, and stays symmetric', () => {
    fc.assert(
      fc.property(system, row, ({ prior, rows }, probe) => {
        const { form } = observation(probe)
        let joint = sequential(prior, [])
        for (const one of rows) {
          const before = marginal(joint, form).u
          joint = condition(joint, observation(one)).joint
          expect(marginal(joint, form).u).toBeLessThanOrEqual(before * (1 + 1e-9) + 1e-9)
        }
        for (let i = 0; i < 4; i++) {
          for (let j = 0; j < i; j++) {
            expect(joint.covariance[4 * i + j]).toBe(joint.covariance[4 * j + i])
          }
        }
      }),
      { seed: 3, numRuns: 200 },
    )
  })

  it('reports the innovation and its standard deviation', () => {
    const joint = jointNormal({ a: { value: 10, u: 3 }, b: { value: 1, u: 0 } })
    const { innovation, innovationSd } = condition(joint, {
      form: { terms: { a: 1, b: 2 }, constant: 5 },
      value: 20,
      variance: 16,
    })
    expect(innovation).toBe(3)
    expect(innovationSd).toBe(5)
  })

  it('keeps a precise reading of a vague unknown precise', () => {
    // The short update (I − k·hᵀ)·P loses all digits here: 10¹² against 10⁻⁴.
    const vague = jointNormal({ a: { value: 0, u: 1e6 }, b: { value: 0, u: 1 } })
    const once = condition(vague, { form: { terms: { a: 1, b: 1 } }, value: 7, variance: 1e-4 })
    const twice = condition(once.joint, { form: { terms: { b: 1 } }, value: 2, variance: 1e-4 })
    expect(marginal(twice.joint, { terms: { a: 1 } }).value).toBeCloseTo(5, 3)
    expect(marginal(twice.joint, { terms: { a: 1 } }).u).toBeCloseTo(Math.sqrt(2e-4), 4)
    expect(marginal(twice.joint, { terms: { a: 1, b: 1 } }).u).toBeCloseTo(0.01, 3)
  })

  it('takes exact statements, and names a contradiction between two of them', () => {
    const joint = jointNormal({ a: { value: 10, u: 3 } })
    const exact = { form: { terms: { a: 2 } }, value: 30, variance: 0 }
    const after = condition(joint, exact).joint
    expect(marginal(after, { terms: { a: 1 } })).toEqual({ value: 15, u: 0 })
    expect(condition(after, exact).joint).toBe(after)
    expect(() => condition(after, { ...exact, value: 31 })).toThrow('differ')
  })

  it.each([
    [{ form: { terms: { z: 1 } }, value: 1, variance: 1 }, 'unknown_name'],
    [{ form: { terms: { a: Number.NaN } }, value: 1, variance: 1 }, 'not_finite'],
    [{ form: { terms: { a: 1 } }, value: Number.NaN, variance: 1 }, 'not_finite'],
    [{ form: { terms: { a: 1 } }, value: 1, variance: -1 }, 'variance_negative'],
    [{ form: { terms: { a: 1 } }, value: 1, variance: Number.NaN }, 'variance_negative'],
  ])('refuses a broken observation: %j', (broken, code) => {
    const joint = jointNormal({ a: { value: 10, u: 3 } })
    expect(() => condition(joint, broken)).toThrow(expect.objectContaining({ code }))
  })
})

describe('a joint normal', () => {
  it('extends by independent unknowns', () => {
    const joint = extend(jointNormal({ a: { value: 1, u: 2 } }), { b: { value: 5, u: 3 } })
    expect(marginal(joint, { terms: { a: 1, b: -1 }, constant: 10 })).toEqual({
      value: 6,
      u: Math.sqrt(13),
    })
    expect(covarianceOf(joint, { terms: { a: 1 } }, { terms: { a: 3, b: 1 } })).toBe(12)
    expect(() => extend(joint, { a: { value: 1, u: 1 } })).toThrow('already')
  })

  it.each([
    [{ value: Number.NaN, u: 1 }, 'not_finite'],
    [{ value: 1, u: Infinity }, 'not_finite'],
    [{ value: 1, u: -1 }, 'uncertainty_negative'],
  ])('refuses a broken unknown: %j', (broken, code) => {
    expect(() => jointNormal({ a: broken })).toThrow(expect.objectContaining({ code }))
  })
})
