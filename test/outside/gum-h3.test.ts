import { describe, expect, it } from 'vitest'
import { covarianceOf, marginal } from '../../src/estimate/index.ts'
import { fitLine } from './fit-line.ts'

// GUM (JCGM 100:2008) H.3, Table H.6: calibration of a thermometer, b = y1 + y2·(t − 20 °C). Data
// and results read in MSLNZ/GTC examples/GUM_H3.py and docs/API/GUM_H3.rst, not in the GUM itself;
// figures with more digits recomputed.
const reference = 20
const readings = [
  [21.521, -0.171],
  [22.012, -0.169],
  [22.512, -0.166],
  [23.003, -0.159],
  [23.507, -0.164],
  [23.999, -0.165],
  [24.513, -0.156],
  [25.002, -0.157],
  [25.503, -0.159],
  [26.01, -0.161],
  [26.511, -0.16],
] as const
/** Standard deviation of the fit, which the GUM takes from the residuals and we take as known. */
const s = 0.003497563963505

const joint = fitLine(
  readings.map(([t, b]) => [t - reference, b] as const),
  s,
  10,
)
const intercept = { terms: { intercept: 1 } }
const slope = { terms: { slope: 1 } }

describe('GUM H.3, thermometer: a line with its covariance', () => {
  it('gives intercept and slope', () => {
    expect(marginal(joint, intercept).value).toBeCloseTo(-0.1712, 4)
    expect(marginal(joint, intercept).u).toBeCloseTo(0.0029, 4)
    expect(marginal(joint, slope).value).toBeCloseTo(0.00218, 5)
    expect(marginal(joint, slope).u).toBeCloseTo(0.00067, 5)
    expect(marginal(joint, intercept).value).toBeCloseTo(-0.17120379013135, 7)
    expect(marginal(joint, intercept).u).toBeCloseTo(0.00287759783516, 8)
    expect(marginal(joint, slope).value).toBeCloseTo(0.002182697739887, 8)
    expect(marginal(joint, slope).u).toBeCloseTo(0.000667938773228, 8)
  })

  it('keeps their correlation', () => {
    const r =
      covarianceOf(joint, intercept, slope) /
      (marginal(joint, intercept).u * marginal(joint, slope).u)
    expect(r).toBeCloseTo(-0.93, 3)
    expect(r).toBeCloseTo(-0.930429603093, 6)
  })

  it('predicts at 30 °C, where dropping the covariance would nearly double u', () => {
    const { value, u } = marginal(joint, { terms: { intercept: 1, slope: 10 } })
    expect(value).toBeCloseTo(-0.1494, 4)
    expect(u).toBeCloseTo(0.0041, 4)
    expect(value).toBeCloseTo(-0.149376812732, 7)
    expect(u).toBeCloseTo(0.004138595753, 7)
    const without = Math.hypot(marginal(joint, intercept).u, 10 * marginal(joint, slope).u)
    expect(without).toBeCloseTo(0.00727, 5)
  })
})
