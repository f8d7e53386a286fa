import { describe, expect, it } from 'vitest'
import {
  brierScore,
  type Forecast,
  logScore,
  murphyDecomposition,
  reliabilityBins,
} from '../scoring.ts'

const forecasts = (happened: readonly number[], chances: readonly number[]): readonly Forecast[] =>
  chances.map((chance, i) => ({ chance, happened: happened[i] === 1 }))

describe('scores of probabilities', () => {
  // Read in the docstring of scikit-learn's brier_score_loss (0.037…) and in the tests of PyCM (0.0375).
  it('Brier score of four forecasts', () => {
    expect(brierScore(forecasts([0, 1, 1, 0], [0.1, 0.9, 0.8, 0.3]))).toBeCloseTo(0.0375, 12)
  })

  // Read in the example of scikit-learn's log_loss (0.21616…); the further digits recomputed.
  it('log score of four forecasts, natural logarithm', () => {
    const one = forecasts([1, 0, 0, 1], [0.9, 0.1, 0.2, 0.65])
    expect(logScore(one)).toBeCloseTo(0.21616187468057912, 12)
  })

  // Read in the docstring of scikit-learn's calibration_curve: three bins of equal width.
  it('reliability curve of nine forecasts', () => {
    const nine = forecasts(
      [0, 0, 0, 0, 1, 1, 1, 1, 1],
      [0.1, 0.2, 0.3, 0.4, 0.65, 0.7, 0.8, 0.9, 1],
    )
    const bins = reliabilityBins(nine, [0, 1 / 3, 2 / 3, 1])
    expect(bins.map(({ observed }) => observed)).toEqual([0, 0.5, 1])
    for (const [i, expected] of [0.2, 0.525, 0.85].entries()) {
      expect(bins[i]!.stated).toBeCloseTo(expected, 12)
    }
  })

  // By definition: (1/2)² and ln 2.
  it('always saying one half', () => {
    const half = forecasts([0, 1, 1], [0.5, 0.5, 0.5])
    expect(brierScore(half)).toBe(0.25)
    expect(logScore(half)).toBeCloseTo(Math.LN2, 12)
  })
})

// D. S. Wilks, Statistical Methods in the Atmospheric Sciences, 1st ed. 1995, Table 7.3, as reproduced in
// the R package verification (man/reliability.plot.Rd, man/attribute.Rd). That page prints .245 and .203
// for the 9th and 12th frequencies: misprints, for only .0245 and .0203 make them add up to 1. The book
// itself was not opened; the parts expected below are recomputed, not its own.
describe('Murphy’s parts on Wilks’ Table 7.3', () => {
  const stated = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]
  const observed = [
    0.006, 0.019, 0.059, 0.15, 0.277, 0.377, 0.511, 0.587, 0.723, 0.779, 0.934, 0.933,
  ]
  const weights = [
    0.4112, 0.0671, 0.1833, 0.0986, 0.0616, 0.0366, 0.0303, 0.0275, 0.0245, 0.022, 0.017, 0.0203,
  ]
  const groups = stated.map((each, i) => ({
    stated: each,
    observed: observed[i]!,
    weight: weights[i]!,
  }))
  const parts = murphyDecomposition(groups)

  it('are those recomputed from the table', () => {
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12)
    expect(parts.reliability).toBeCloseTo(0.00082762, 8)
    expect(parts.resolution).toBeCloseTo(0.06278663, 8)
    expect(parts.uncertainty).toBeCloseTo(0.13542005, 8)
    const { reliability, resolution, uncertainty } = parts
    expect(reliability - resolution + uncertainty).toBeCloseTo(0.07346104, 8)
  })

  it('add up to the Brier score of the forecasts themselves', () => {
    const each = groups.flatMap((group) => {
      const n = Math.round(group.weight * 10_000)
      const happened = Math.round(n * group.observed)
      return Array.from({ length: n }, (_, i) => ({ chance: group.stated, happened: i < happened }))
    })
    const bins = stated.map((chance) => {
      const inside = each.filter((one) => one.chance === chance)
      const yes = inside.filter((one) => one.happened).length
      return { weight: inside.length, stated: chance, observed: yes / inside.length }
    })
    const { reliability, resolution, uncertainty } = murphyDecomposition(bins)
    expect(reliability - resolution + uncertainty).toBeCloseTo(brierScore(each), 12)
  })
})
