import { describe, expect, it } from 'vitest'
import { normalCdf, normalQuantile } from '../../src/estimate/index.ts'
import { millimetres } from '../../src/units/index.ts'
import { drawWithChance, type MarginModel } from '../../src/verdict/index.ts'

// Fieller's interval for a ratio a/b: the t with (a − t·b)² ≤ z²·(Va − 2t·Cab + t²·Vb). The formula
// was read in CRAN twopartm R/FiellerRatio.R and adjustedCurves R/fieller_ratio.r; no published
// numeric example could be opened, so the limits are recomputed from it. The inputs of the last row
// are those of a published worked script (Kunstler 2015).
const cases = [
  [10, 5, 1, 0.25, 0, 1.50895402304, 2.6508428613],
  [100, 50, 4, 4, 0, 1.83608848632, 2.18864889434],
  [1000, 800, 100, 64, 0, 1.2158227853, 1.28513794847],
  [0.15, 0.25, 0.002, 0.005, 0.0001, 0.230625780511, 1.4840212183],
] as const

const exactPrinter = {
  feedFactor: { value: 1, u: 0 },
  startAllowance_mm: { value: millimetres(0), u: 0 },
  tail_mm: { value: millimetres(0), u: 0 },
}

const modelOf = (a: number, b: number, va: number, vb: number, cab: number): MarginModel => ({
  net: { value: a, u: Math.sqrt(va) },
  linearDensity: { value: b, u: Math.sqrt(vb) },
  covariance: cab,
  printer: exactPrinter,
})

describe('Fieller: the available length is the ratio of net mass and linear density', () => {
  it.each(cases)('%d / %d', (a, b, va, vb, cab, lower, upper) => {
    const model = modelOf(a, b, va, vb, cab)
    // Fieller's numerator may be negative, a reel's net mass not: its chances are given n > 0.
    const some = normalCdf(a / Math.sqrt(va))
    // Grams over grams per metre are metres; draws are in mm.
    expect(drawWithChance(model, 0.975 / some) / 1000 / lower).toBeCloseTo(1, 9)
    expect(drawWithChance(model, 0.025 / some) / 1000 / upper).toBeCloseTo(1, 9)
    expect(drawWithChance(model, 0.5 / some) / 1000).toBeCloseTo(a / b, 9)
  })

  it('has no upper limit when b may be nothing (g ≥ 1)', () => {
    const z = normalQuantile(0.975)
    const vb = (5 / z) ** 2 * 1.1
    expect(drawWithChance(modelOf(10, 5, 1, vb, 0), 0.025)).toBe(Infinity)
  })
})
