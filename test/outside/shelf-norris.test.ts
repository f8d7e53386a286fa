import { describe, expect, it } from 'vitest'
import {
  covarianceOf,
  defaultShelfPriors,
  estimateShelf,
  marginal,
  reelPosterior,
  type ShelfFact,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'
import { norris } from './norris.ts'

// NIST/ITL Statistical Reference Datasets, linear regression: Norris. Data and certified values read
// in GSL's test file, Apache Commons Math and statsmodels, not on the NIST page itself.
const fromTheFullest = norris.toSorted(([a], [b]) => b - a)

// A reel that is trimmed from 999.0 m down to each x and weighed there shows
// tare + net = intercept + slope·x: its linear density is the slope. Priors too vague to matter.
const vague = 1e4
const priors = {
  ...defaultShelfPriors,
  openingWithoutLabel: { ...defaultShelfPriors.openingWithoutLabel, value: 0, u: vague },
  densityOfUnknownMaterial: {
    ...defaultShelfPriors.densityOfUnknownMaterial,
    value: 1,
    u: vague,
  },
}
const facts = fromTheFullest.flatMap(([x, y], i): ShelfFact[] => {
  const trimmed = millimetres(1000 * (fromTheFullest[Math.max(0, i - 1)]![0] - x))
  return [
    { kind: 'trimmed', id: `t${i}`, at: 2 * i, reel: 'line', length: measured(trimmed) },
    {
      kind: 'weighed',
      id: `w${i}`,
      at: 2 * i + 1,
      reel: 'line',
      scale: 's',
      reading: grams(y),
      u: 1,
    },
  ]
})
const joint = reelPosterior(
  estimateShelf(
    {
      makes: [{ id: 'make' }],
      printers: [],
      scales: [{ id: 's', scale: { ...kitchenScale, gain: 0 } }],
      reels: [{ id: 'line', make: 'make' }],
    },
    facts,
    { priors },
  ),
  'line',
)
const last = Math.min(...fromTheFullest.map(([x]) => x))
const slope = { terms: { linear_density: 1 } }
const intercept = { terms: { tare: 1, net: 1, linear_density: -last } }
const relative = (actual: number, expected: number): number => Math.abs(actual / expected - 1)

describe('NIST Norris as the history of one reel', () => {
  it('gives the certified intercept and slope', () => {
    expect(relative(marginal(joint, intercept).value, -0.262323073774029)).toBeLessThan(1e-5)
    expect(relative(marginal(joint, slope).value, 1.00211681802045)).toBeLessThan(1e-8)
  })

  it('gives the covariance for σ = 1 that GSL prints', () => {
    expect(relative(marginal(joint, intercept).u ** 2, 6.92384428759429e-2)).toBeLessThan(1e-5)
    expect(relative(covarianceOf(joint, intercept, slope), -9.89095016390515e-5)).toBeLessThan(1e-5)
    expect(relative(marginal(joint, slope).u ** 2, 2.35960747164148e-7)).toBeLessThan(1e-5)
  })
})
