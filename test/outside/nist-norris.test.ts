import { describe, expect, it } from 'vitest'
import { condition, covarianceOf, jointNormal, marginal } from '../../src/estimate/index.ts'
import { fitLine } from './fit-line.ts'
import { norris } from './norris.ts'

// NIST/ITL Statistical Reference Datasets, linear regression: Norris and NoInt1. Data and certified
// values read in GSL's test file, Apache Commons Math and statsmodels, not on the NIST page itself.
const intercept = { terms: { intercept: 1 } }
const slope = { terms: { slope: 1 } }
const relative = (actual: number, expected: number): number => Math.abs(actual / expected - 1)

// A prior of ±10⁴ adds about 10⁻⁹ to the information; conditioning from it loses some digits.
const joint = fitLine(norris, 1, 1e4)

describe('NIST Norris: a line with known standard deviation', () => {
  it('has 36 points', () => expect(norris).toHaveLength(36))

  it('gives the certified intercept and slope', () => {
    expect(relative(marginal(joint, intercept).value, -0.262323073774029)).toBeLessThan(1e-6)
    expect(relative(marginal(joint, slope).value, 1.00211681802045)).toBeLessThan(1e-9)
  })

  it('gives the covariance for σ = 1 that GSL prints', () => {
    expect(relative(marginal(joint, intercept).u ** 2, 6.92384428759429e-2)).toBeLessThan(1e-6)
    expect(relative(covarianceOf(joint, intercept, slope), -9.89095016390515e-5)).toBeLessThan(1e-6)
    expect(relative(marginal(joint, slope).u ** 2, 2.35960747164148e-7)).toBeLessThan(1e-6)
  })

  it('gives the certified standard deviations once scaled by that of the residuals', () => {
    const residual = 0.884796396144373
    expect(relative(marginal(joint, intercept).u * residual, 0.232818234301152)).toBeLessThan(1e-6)
    expect(relative(marginal(joint, slope).u * residual, 0.429796848199937e-3)).toBeLessThan(1e-6)
  })

  it('is reached from either end', () => {
    const back = fitLine(norris.toReversed(), 1, 1e4)
    expect(marginal(back, intercept).value).toBeCloseTo(marginal(joint, intercept).value, 6)
    expect(marginal(back, slope).value).toBeCloseTo(marginal(joint, slope).value, 9)
  })
})

describe('NIST NoInt1: a line through the origin', () => {
  const line = Array.from({ length: 11 }, (_, i) => [60 + i, 130 + i] as const).reduce(
    (sofar, [x, y]) =>
      condition(sofar, { form: { terms: { slope: x } }, value: y, variance: 1 }).joint,
    jointNormal({ slope: { value: 0, u: 1e4 } }),
  )

  it('gives the certified slope and its variance for σ = 1', () => {
    const { value, u } = marginal(line, slope)
    expect(relative(value, 2.07438016528926)).toBeLessThan(1e-9)
    expect(relative(u ** 2, 2.14661371686165e-5)).toBeLessThan(1e-9)
    expect(relative(u * 3.56753034006338, 0.165289256198347e-1)).toBeLessThan(1e-9)
  })
})
