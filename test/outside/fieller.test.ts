import { describe, expect, it } from 'vitest'
import {
  covarianceOf,
  estimateShelf,
  marginal,
  normalCdf,
  normalQuantile,
  type ShelfCatalogue,
  type ShelfFact,
  shelfBelief,
} from '../../src/estimate/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'
import { drawWithChance, type MarginModel, marginModel } from '../../src/verdict/index.ts'

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

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PLA' }],
  printers: [],
  scales: [],
  reels: [{ id: 'first', make: 'quay' }],
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

  it.each(cases)('%d / %d, the covariance being of net mass and feed factor', (...row) => {
    // With an exact linear density of 1 g/m it is the feed factor that is the denominator.
    const [a, b, va, vb, cab, lower, upper] = row
    const none = { netStart: 0, linearDensityFeed: 0, linearDensityStart: 0, feedStart: 0 }
    const model: MarginModel = {
      net: { value: a, u: Math.sqrt(va) },
      linearDensity: { value: 1, u: 0 },
      covariance: 0,
      printer: { ...exactPrinter, feedFactor: { value: b, u: Math.sqrt(vb) } },
      between: { ...none, netFeed: cab },
    }
    const some = normalCdf(a / Math.sqrt(va))
    expect(drawWithChance(model, 0.975 / some) / 1000 / lower).toBeCloseTo(1, 9)
    expect(drawWithChance(model, 0.025 / some) / 1000 / upper).toBeCloseTo(1, 9)
  })

  it('holds for a reel of a shelf, whose net mass and linear density hang together', () => {
    const facts: readonly ShelfFact[] = [
      { kind: 'opened', id: 'open', at: 0, reel: 'first', labelNet: grams(1000) },
      {
        kind: 'trimmed',
        id: 'trim',
        at: 1,
        reel: 'first',
        length: measured(millimetres(150_000), 5),
      },
    ]
    const estimate = estimateShelf(catalogue, facts)
    const { joint, net, linearDensity, ...belief } = shelfBelief(estimate, 'first')
    const [a, b] = [marginal(joint, net), marginal(joint, linearDensity)]
    const cab = covarianceOf(joint, net, linearDensity)
    expect(cab / (a.u * b.u)).toBeLessThan(-0.5)
    // The form read, solved for t: limits (B ± √(B² − A·C))/A.
    const z2 = normalQuantile(0.975) ** 2
    const [A, B, C] = [
      b.value ** 2 - z2 * b.u ** 2,
      a.value * b.value - z2 * cab,
      a.value ** 2 - z2 * a.u ** 2,
    ]
    const model = marginModel({ ...belief, joint, net, linearDensity }, exactPrinter)
    const some = normalCdf(a.value / a.u)
    const root = Math.sqrt(B ** 2 - A * C)
    expect((drawWithChance(model, 0.975 / some) / 1000) * A).toBeCloseTo(B - root, 6)
    expect((drawWithChance(model, 0.025 / some) / 1000) * A).toBeCloseTo(B + root, 6)
  })

  it('has no upper limit when b may be nothing (g ≥ 1)', () => {
    const z = normalQuantile(0.975)
    const vb = (5 / z) ** 2 * 1.1
    expect(drawWithChance(modelOf(10, 5, 1, vb, 0), 0.025)).toBe(Infinity)
  })
})
