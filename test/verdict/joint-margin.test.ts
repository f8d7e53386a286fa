import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type Measured, measured, millimetres } from '../../src/units/index.ts'
import {
  chanceAt,
  leftOverAt,
  type MarginModel,
  marginAt,
  marginModel,
  neededAt,
  type Printer,
} from '../../src/verdict/index.ts'
import { jointBelief, unitVector } from './joint-beliefs.ts'

const given: Printer = {
  feedFactor: measured(0.5, 0.4),
  startAllowance_mm: measured(millimetres(9000), 4000),
  tail_mm: measured(millimetres(500), 250),
}
const trials = 200_000

const momentsOf = (values: Float64Array): { mean: number; sd: number; wide: number } => {
  let mean = 0
  for (const value of values) mean += value / values.length
  let second = 0
  let fourth = 0
  for (const value of values) {
    second += (value - mean) ** 2 / values.length
    fourth += (value - mean) ** 4 / values.length
  }
  // Standard deviation of the counted one, relative.
  const wide = Math.sqrt((fourth / second ** 2 - 1) / (4 * values.length))
  return { mean, sd: Math.sqrt(second), wide }
}

const agrees = ({ value, u }: Measured, counted: Float64Array): void => {
  const { mean, sd, wide } = momentsOf(counted)
  expect(Math.abs(value - mean)).toBeLessThan((4.5 * sd) / Math.sqrt(counted.length))
  expect(Math.abs(u / sd - 1)).toBeLessThan(4.5 * wide)
}

type Parts = Parameters<typeof jointBelief>[0]

/** What is counted in draws from the joint that leave n > 0. */
const count = (
  random: SeededRandom,
  [net, perMetre, phi, start]: Parts,
  vectors: readonly (readonly number[])[],
  draw: number,
) => {
  const margins = new Float64Array(trials)
  const lefts = new Float64Array(trials)
  const needs = new Float64Array(trials)
  let enough = 0
  for (let i = 0; i < trials; ) {
    const z = Array.from({ length: 5 }, () => random.normal())
    const off = vectors.map((vector) => vector.reduce((sum, v, k) => sum + v * z[k]!, 0))
    const n = net.value + net.u * off[0]!
    if (n <= 0) continue
    const lambda = perMetre.value + perMetre.u * off[1]!
    const fed = (phi.value + phi.u * off[2]!) * draw + start.value + start.u * off[3]!
    needs[i] = (lambda * fed) / 1000
    lefts[i] = n - needs[i]!
    margins[i] = lefts[i]! - (lambda * random.normal(500, 250)) / 1000
    if (margins[i]! > 0) enough++
    i++
  }
  return { margins, lefts, needs, p: enough / trials }
}

describe('the margin of a belief that knows its printer', () => {
  it.each(Array.from({ length: 8 }, (_, seed) => [seed]))('is what counting finds, %i', (seed) => {
    const random = new SeededRandom(500 + seed)
    const netU = random.between(5, 80)
    // From a reel that may well be empty to one that is not.
    const parts = [
      measured(random.between(-0.5, 4) * netU, netU),
      measured(random.between(2, 9), random.between(0.05, 0.4)),
      measured(random.between(0.95, 1.05), random.between(0.01, 0.08)),
      measured(random.between(0, 300), random.between(20, 200)),
    ] as const
    const vectors = parts.map(() => unitVector(random))
    const model = marginModel(jointBelief(parts, vectors), given)
    const metres = Math.max(1, parts[0].value / parts[1].value) * random.between(0.5, 1.2)
    const draw = 1000 * metres

    const { margins, lefts, needs, p } = count(random, parts, vectors, draw)
    agrees(marginAt(model, draw), margins)
    agrees(leftOverAt(model, draw), lefts)
    agrees(neededAt(model, draw), needs)
    const counting = 4.5 * Math.sqrt((p * (1 - p)) / trials)
    // That M is normal is an approximation, not the moments.
    expect(Math.abs(chanceAt(model, draw) - p)).toBeLessThan(counting + 0.005)
  })

  it('has the shape that n above 0 has, where all hangs on it', () => {
    // Known far worse than any filament: else the third cumulant would be lost in the counting.
    const parts = [measured(-40, 80), measured(5, 2), measured(1, 0.4), measured(0, 9)] as const
    const near = Math.sqrt(0.9)
    const aside = Math.sqrt(0.1)
    const vectors = [
      [1, 0, 0, 0, 0],
      [near, aside, 0, 0, 0],
      [near, 0, aside, 0, 0],
      [0, 0, 0, 1, 0],
    ]
    const model = marginModel(jointBelief(parts, vectors), given)
    const { margins, lefts, needs } = count(new SeededRandom(41), parts, vectors, 12_000)
    agrees(marginAt(model, 12_000), margins)
    agrees(leftOverAt(model, 12_000), lefts)
    agrees(neededAt(model, 12_000), needs)
  })

  it('takes the tail, and nothing else, from the printer given', () => {
    const parts = [measured(200, 10), measured(3), measured(1.02, 0.01), measured(80, 30)] as const
    const axes = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => Number(i === j)))
    const { printer, between } = marginModel(jointBelief(parts, axes), given)
    expect(printer.feedFactor).toEqual({ value: 1.02, u: 0.01 })
    expect(printer.startAllowance_mm).toEqual({ value: 80, u: 30 })
    expect(printer.tail_mm).toBe(given.tail_mm)
    expect(Object.values(between!)).toEqual([0, 0, 0, 0, 0])
  })

  it('is with independent parts what it is without covariances', () => {
    const random = new SeededRandom(77)
    for (let i = 0; i < 500; i++) {
      const plain: MarginModel = {
        net: measured(random.between(-50, 900), random.between(0, 80)),
        linearDensity: measured(random.between(2, 9), random.between(0, 0.4)),
        covariance: random.between(-1, 1),
        printer: {
          feedFactor: measured(random.between(0.9, 1.1), random.between(0, 0.05)),
          startAllowance_mm: measured(millimetres(random.between(0, 300)), random.between(0, 200)),
          tail_mm: given.tail_mm,
        },
      }
      const none = { netFeed: 0, netStart: 0, feedStart: 0 }
      const model = { ...plain, between: { ...none, linearDensityFeed: 0, linearDensityStart: 0 } }
      const draw = random.between(0, 200_000)
      expect(marginAt(model, draw)).toEqual(marginAt(plain, draw))
      expect(chanceAt(model, draw)).toBe(chanceAt(plain, draw))
      const { feedFactor: phi, startAllowance_mm: start, tail_mm: tail } = plain.printer
      if (plain.net.value < 8 * plain.net.u) continue
      // The formulas of independent parts, written out.
      const x = (phi.value * draw + start.value + tail.value) / 1000
      const ofX = ((draw * phi.u) ** 2 + start.u ** 2 + tail.u ** 2) / 1e6
      const { value, u } = plain.linearDensity
      const product = value ** 2 * ofX + x ** 2 * u ** 2 + u ** 2 * ofX
      const variance = plain.net.u ** 2 + product - 2 * x * plain.covariance
      expect(marginAt(model, draw).value).toBeCloseTo(plain.net.value - value * x, 8)
      expect(marginAt(model, draw).u).toBeCloseTo(Math.sqrt(Math.max(0, variance)), 8)
    }
  })
})
