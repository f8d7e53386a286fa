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

// NIST/ITL Statistical Reference Datasets, linear regression: Norris. Data and certified values read
// in GSL's test file, Apache Commons Math and statsmodels, not on the NIST page itself.
// (y, x) pairs in the published order.
const norris = `
0.1 0.2 | 338.8 337.4 | 118.1 118.2 | 888.0 884.6 | 9.2 10.1 | 228.1 226.5 | 668.5 666.3
998.5 996.3 | 449.1 448.6 | 778.9 777.0 | 559.2 558.2 | 0.3 0.4 | 0.1 0.6 | 778.1 775.5
668.8 666.9 | 339.3 338.0 | 448.9 447.5 | 10.8 11.6 | 557.7 556.0 | 228.3 228.1 | 998.0 995.8
888.8 887.6 | 119.6 120.2 | 0.3 0.3 | 0.6 0.3 | 557.6 556.8 | 339.3 339.1 | 888.0 887.2
998.5 999.0 | 778.9 779.0 | 10.2 11.1 | 117.6 118.3 | 228.9 229.2 | 668.4 669.1 | 449.2 448.9
0.2 0.5`
  .trim()
  .split(/[|\n]/)
  .map((pair) => {
    const [y, x] = pair.trim().split(' ').map(Number)
    return [x!, y!] as const
  })
  .toSorted(([a], [b]) => b - a)

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
const facts = norris.flatMap(([x, y], i): ShelfFact[] => {
  const trimmed = millimetres(1000 * (norris[Math.max(0, i - 1)]![0] - x))
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
const last = Math.min(...norris.map(([x]) => x))
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
