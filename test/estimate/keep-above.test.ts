import { describe, expect, it } from 'vitest'
import {
  condition,
  covarianceOf,
  jointNormal,
  keepAbove,
  marginal,
  standardAbove,
} from '../../src/estimate/index.ts'

const a = { terms: { a: 1 } }
const b = { terms: { b: 1 } }

describe('keeping a weighted sum above a bound', () => {
  it('makes a half-normal of one cut at its mean', () => {
    const cut = marginal(keepAbove(jointNormal({ a: { value: 5, u: 3 } }), a, 5), a)
    expect(cut.value).toBeCloseTo(5 + 3 * Math.sqrt(2 / Math.PI), 12)
    expect(cut.u).toBeCloseTo(3 * Math.sqrt(1 - 2 / Math.PI), 12)
  })

  it('takes along what is correlated, by regression', () => {
    const joint = condition(jointNormal({ a: { value: 0, u: 3 }, b: { value: 10, u: 2 } }), {
      form: { terms: { a: 1, b: 1 } },
      value: 10,
      variance: 1,
    }).joint
    const slope = covarianceOf(joint, a, b) / marginal(joint, a).u ** 2
    const cut = keepAbove(joint, a, 1)
    const moved = marginal(cut, a).value - marginal(joint, a).value
    expect(moved).toBeGreaterThan(1)
    expect(marginal(cut, b).value - marginal(joint, b).value).toBeCloseTo(slope * moved, 12)
    const left = marginal(joint, b).u ** 2 - slope * covarianceOf(joint, a, b)
    const still = marginal(cut, b).u ** 2 - slope ** 2 * marginal(cut, a).u ** 2
    expect(still).toBeCloseTo(left, 12)
  })

  it('changes nothing far above the bound or of an exact value', () => {
    const far = jointNormal({ a: { value: 100, u: 3 } })
    expect(keepAbove(far, a, 0)).toBe(far)
    const exact = jointNormal({ a: { value: -1, u: 0 } })
    expect(keepAbove(exact, a, 0)).toBe(exact)
  })

  it.each([5, 29.9, 30.1, 37, 39, 1000])(
    'sits just above a bound %f standard deviations away',
    (far) => {
      const { value, u } = marginal(keepAbove(jointNormal({ a: { value: -far, u: 1 } }), a, 0), a)
      // To leading order the excess is exponential with mean 1/far; the next terms take off a little.
      expect(value * far).toBeLessThan(1)
      expect(value * far).toBeGreaterThan(1 - 3 / far ** 2)
      expect(u * far).toBeLessThan(1)
      expect(u * far).toBeGreaterThan(1 - 4 / far ** 2)
    },
  )
})

describe('cumulants above a bound', () => {
  it.each([5, 29.9, 30.1, 1000, 1e20])(
    'are those of an exponential, a little less, %f standard deviations away',
    (far) => {
      const { third, fourth } = standardAbove(far)
      expect(third * far ** 3).toBeLessThanOrEqual(2)
      expect(third * far ** 3).toBeGreaterThan(2 - 25 / far ** 2 - 1e-6)
      expect(fourth * far ** 4).toBeLessThanOrEqual(6)
      expect(fourth * far ** 4).toBeGreaterThan(6 - 125 / far ** 2 - 1e-5)
    },
  )

  it('are those of a half-normal at its mean', () => {
    const { third, fourth } = standardAbove(0)
    expect(third).toBeCloseTo(Math.sqrt(2 / Math.PI) * (4 / Math.PI - 1), 12)
    expect(fourth).toBeCloseTo((8 * (Math.PI - 3)) / Math.PI ** 2, 12)
  })
})
