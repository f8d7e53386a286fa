import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  jointNormal,
  marginal,
  meanOf,
  normalQuantile,
  productAt,
  sumOf,
} from '../../src/estimate/index.ts'

// JCGM 101:2008 (GUM Supplement 1), 9.2 and 9.3. Which results were read elsewhere and which are
// from memory stands beside each.

/** Sorted outcomes of a simulation. */
const simulate = (
  seed: number,
  trials: number,
  draw: (random: SeededRandom) => number,
): Float64Array => {
  const random = new SeededRandom(seed)
  return Float64Array.from({ length: trials }, () => draw(random)).toSorted()
}
const spreadOf = (sorted: Float64Array): { mean: number; sd: number } => {
  const mean = sorted.reduce((sum, x) => sum + x, 0) / sorted.length
  const squares = sorted.reduce((sum, x) => sum + (x - mean) ** 2, 0)
  return { mean, sd: Math.sqrt(squares / (sorted.length - 1)) }
}
const pointAt = (sorted: Float64Array, share: number): number =>
  sorted[Math.floor(share * sorted.length)]!

const reach = normalQuantile(0.975)
const sum = { terms: { x1: 1, x2: 1, x3: 1, x4: 1 } }
const unit = { value: 0, u: 1 }
const half = Math.sqrt(3)

describe('JCGM 101, 9.2: the additive model', () => {
  it('9.2.2, four standard normals: 2.00 and ±3.92, exact for a joint normal', () => {
    // Read in sandialabs/suncal tests; exact.
    const { value, u } = marginal(jointNormal({ x1: unit, x2: unit, x3: unit, x4: unit }), sum)
    expect(value).toBe(0)
    expect(u).toBeCloseTo(2, 12)
    expect(reach * u).toBeCloseTo(3.92, 2)
  })

  it('9.2.3, four uniforms: the normal interval is 1 % too wide', () => {
    // u and ±3.88 read in sandialabs/suncal tests; the end point in closed form recomputed.
    const exact = 2 * half * (2 - (3 / 5) ** (1 / 4))
    expect(exact).toBeCloseTo(3.879406741, 8)
    expect((reach * 2) / exact).toBeCloseTo(1.01, 2)
    const found = simulate(11, 200_000, (random) => {
      let total = 0
      for (let i = 0; i < 4; i++) total += random.between(-half, half)
      return total
    })
    // Four standard errors of a 2.5 % point of 200 000 trials are about 0.03.
    expect(Math.abs(pointAt(found, 0.975) - exact)).toBeLessThan(0.03)
    expect(spreadOf(found).sd).toBeCloseTo(2, 1)
  })

  it('9.2.4, one uniform rules: the normal interval is too wide by a sixth', () => {
    // From memory: 10.1 and ±17.0 by simulation, ±19.9 by the law of propagation; u² = 103 exact.
    const joint = jointNormal({ x1: unit, x2: unit, x3: unit, x4: { value: 0, u: 10 } })
    const { u } = marginal(joint, sum)
    expect(u).toBeCloseTo(Math.sqrt(103), 12)
    expect(reach * u).toBeCloseTo(19.9, 1)
    const found = simulate(12, 200_000, (random) => {
      let total = 10 * random.between(-half, half)
      for (let i = 0; i < 3; i++) total += random.between(-half, half)
      return total
    })
    expect(Math.abs(pointAt(found, 0.975) - 17)).toBeLessThan(0.1)
    expect(Math.abs(pointAt(found, 0.025) + 17)).toBeLessThan(0.1)
    expect((reach * u) / pointAt(found, 0.975)).toBeGreaterThan(1.15)
  })
})

describe('JCGM 101, 9.3: mass calibration, where first order is blind', () => {
  // Inputs read in cran/propagate man/propagate.Rd; results from memory and recomputed.
  const uAir = 0.1 / half
  const uWeight = 1000 / half
  const uReference = 50 / half
  const nominal = 100_000

  const found = simulate(13, 200_000, (random) => {
    const mass = random.normal(nominal, 0.05) + random.normal(1.234, 0.02)
    const air = random.between(1.1, 1.3)
    const weight = random.between(7000, 9000)
    const reference = random.between(7950, 8050)
    return mass * (1 + (air - 1.2) * (1 / weight - 1 / reference)) - nominal
  })

  it('says 0.054 to first order', () => {
    // At the estimate both factors of the product are 0, so neither weighs anything.
    const inputs = {
      mass: { value: nominal, u: 0.05 },
      offset: { value: 1.234, u: 0.02 },
      air: { value: 0, u: uAir },
      difference: { value: 0, u: Math.hypot(uWeight, uReference) / 8000 ** 2 },
    }
    const joint = jointNormal(inputs)
    const at = (name: string): number => meanOf(joint, name)
    const form = sumOf(
      { terms: { mass: 1, offset: 1 }, constant: -nominal },
      productAt(['air', 'difference'], nominal, at),
    )
    const { value, u } = marginal(joint, form)
    expect(value).toBeCloseTo(1.234, 9)
    expect(u).toBeCloseTo(0.053852, 6)
    // The published 0.0538 is cut, not rounded.
    expect(Math.floor(u * 1e4) / 1e4).toBe(0.0538)
    expect(u / spreadOf(found).sd).toBeLessThan(0.75)
  })

  it('says 0.0750 with the product term that the margin keeps', () => {
    const product = nominal * uAir * (Math.hypot(uWeight, uReference) / 8000 ** 2)
    const u = Math.hypot(0.05, 0.02, product)
    expect(u).toBeCloseTo(0.074963, 5)
    expect(Math.abs(u - spreadOf(found).sd)).toBeLessThan(0.001)
  })

  it('is 1.2341, 0.0754 by simulation', () => {
    expect(Math.abs(spreadOf(found).mean - 1.2341)).toBeLessThan(0.001)
    expect(Math.abs(spreadOf(found).sd - 0.0754)).toBeLessThan(0.001)
    expect(Math.abs(pointAt(found, 0.025) - 1.0844)).toBeLessThan(0.002)
    expect(Math.abs(pointAt(found, 0.975) - 1.3837)).toBeLessThan(0.002)
  })
})
