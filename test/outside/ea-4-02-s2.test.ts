import { describe, expect, it } from 'vitest'
import { jointNormal, marginal } from '../../src/estimate/index.ts'

// EA-4/02 M:2013 supplement S2, calibration of a weight of 10 kg: mX = mS + δmD + δm + δmC + δB, g.
// Inputs, 29.1 mg and 58 mg read on www.metrodata.de/examples/s02_en.html, which takes 14.2 mg for
// the mean of three comparisons; 29.3 mg and 59 mg of the EA document itself are from memory.
const uniform = (half: number): { value: number; u: number } => ({
  value: 0,
  u: half / Math.sqrt(3),
})
const form = { terms: { mS: 1, drift: 1, dm: 1, centre: 1, buoyancy: 1 } }
const budget = {
  mS: { value: 10_000.005, u: 0.045 / 2 },
  drift: uniform(0.015),
  dm: { value: 0.02, u: 0.025 / Math.sqrt(3) },
  centre: uniform(0.01),
  buoyancy: uniform(0.01),
}

describe('EA-4/02 S2, a weighing budget', () => {
  it('has the five components', () => {
    const milligrams = Object.values(budget).map(({ u }) => 1000 * u)
    for (const [i, expected] of [22.5, 8.66, 14.434, 5.774, 5.774].entries()) {
      expect(milligrams[i]).toBeCloseTo(expected, 3)
    }
  })

  it('comes to 10 000.025 g, u = 29.3 mg, U = 59 mg', () => {
    const { value, u } = marginal(jointNormal(budget), form)
    expect(value).toBeCloseTo(10_000.025, 6)
    expect(1000 * u).toBeCloseTo(29.2617, 4)
    expect(Math.round(2000 * u)).toBe(59)
  })

  it('comes to 29.1 mg and 58 mg as re-evaluated', () => {
    const joint = jointNormal({ ...budget, dm: { value: 0.02, u: 0.0142 } })
    const { u } = marginal(joint, form)
    expect(Math.abs(1000 * u - 29.1)).toBeLessThan(0.06)
    expect(Math.round(2000 * u)).toBe(58)
  })
})
