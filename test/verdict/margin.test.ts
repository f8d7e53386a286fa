import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { measured, millimetres } from '../../src/units/index.ts'
import {
  availableDraw,
  chanceAt,
  chanceOf,
  drawWithChance,
  leftOverAt,
  type MarginModel,
  marginAt,
  neededAt,
} from '../../src/verdict/index.ts'
import { exactPrinter } from './bench-reels.ts'

const model: MarginModel = {
  net: { value: 200, u: 15 },
  linearDensity: { value: 3, u: 0.2 },
  covariance: 1.2,
  printer: {
    feedFactor: measured(1.01, 0.03),
    startAllowance_mm: measured(millimetres(80), 60),
    tail_mm: measured(millimetres(500), 250),
  },
}

const quantity = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: low, max: high, noNaN: true })

describe('margin', () => {
  it('has mean and spread of a simulation with all correlations and the product term', () => {
    const random = new SeededRandom(21)
    const slope = model.covariance / model.net.u ** 2
    const rest = Math.sqrt(model.linearDensity.u ** 2 - slope * model.covariance)
    const trials = 200_000
    let sum = 0
    let squares = 0
    const { value, u } = marginAt(model, 60_000)
    for (let i = 0; i < trials; i++) {
      const net = random.normal(200, 15)
      const perMetre = random.normal(3 + slope * (net - 200), rest)
      const metres =
        (random.normal(1.01, 0.03) * 60_000 + random.normal(80, 60) + random.normal(500, 250)) /
        1000
      const off = net - perMetre * metres - value
      sum += off
      squares += off ** 2
    }
    const sd = Math.sqrt(squares / trials)
    expect(Math.abs(sum / trials)).toBeLessThan((4 * u) / Math.sqrt(trials))
    expect(Math.abs(sd / u - 1)).toBeLessThan(4 / Math.sqrt(2 * trials))
  })

  it('is what is left over less the tail, and net less needed less the tail', () => {
    const left = leftOverAt(model, 60_000).value
    expect(left - marginAt(model, 60_000).value).toBeCloseTo(0.5 * 3, 10)
    expect(left + neededAt(model, 60_000).value).toBeCloseTo(200, 10)
  })

  it('without any spread is sure, and zero is not enough', () => {
    const sure: MarginModel = {
      net: measured(3),
      linearDensity: measured(3),
      covariance: 0,
      printer: exactPrinter,
    }
    expect(chanceAt(sure, 999)).toBe(1)
    expect(chanceAt(sure, 1000)).toBe(0)
    expect(chanceAt(sure, 1001)).toBe(0)
    expect(drawWithChance(sure, 0.95)).toBeCloseTo(1000, 6)
    expect(availableDraw(sure)).toEqual({
      value: expect.closeTo(1000, 6),
      u: expect.closeTo(0, 9),
    })
  })

  it('falls in chance as the draw grows', () => {
    fc.assert(
      fc.property(
        quantity(-100, 1200),
        quantity(0.1, 100),
        quantity(1, 10),
        quantity(0, 0.08),
        quantity(-0.9, 0.9),
        quantity(0, 400_000),
        quantity(0, 400_000),
        (net, netU, perMetre, relative, r, a, b) => {
          const linearDensity = { value: perMetre, u: perMetre * relative }
          const drawn: MarginModel = {
            ...model,
            net: { value: net, u: netU },
            linearDensity,
            covariance: r * netU * linearDensity.u,
          }
          const [near, far] = [chanceAt(drawn, Math.min(a, b)), chanceAt(drawn, Math.max(a, b))]
          // Where both are as good as nought the curve of a normal margin may turn up again.
          const some = chanceOf(drawn.net)
          expect(far <= near || far * some < 1e-6).toBe(true)
        },
      ),
      { seed: 5, numRuns: 2000 },
    )
  })

  it.each([0.05, 0.5, 0.95])('finds the draw that lasts with a chance of %f', (chance) => {
    expect(chanceAt(model, drawWithChance(model, chance))).toBeCloseTo(chance, 9)
  })

  it.each([160, 200, 220])(
    'is the chance that counting finds, at %d g on a guessed carrier',
    (gross) => {
      // The carrier weighs 250 ± 60 g and the reel is not empty by less than nothing.
      const near: MarginModel = {
        ...model,
        net: measured(gross - 250, 60),
        linearDensity: measured(2.9826, 0.07),
        covariance: 0,
      }
      const random = new SeededRandom(gross)
      let some = 0
      let enough = 0
      let margins = 0
      let squares = 0
      while (some < 40_000) {
        const net = random.normal(gross - 250, 60)
        if (net <= 0) continue
        some++
        const metres =
          (random.normal(1.01, 0.03) * 5000 + random.normal(80, 60) + random.normal(500, 250)) /
          1000
        const margin = net - random.normal(2.9826, 0.07) * metres
        if (margin > 0) enough++
        margins += margin
        squares += margin ** 2
      }
      const p = enough / some
      expect(Math.abs(chanceAt(near, 5000) - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / some))
      const mean = margins / some
      const spread = Math.sqrt(squares / some - mean ** 2)
      const { value, u } = marginAt(near, 5000)
      expect(Math.abs(value - mean)).toBeLessThan((4 * spread) / Math.sqrt(some))
      expect(u / spread).toBeCloseTo(1, 1)
    },
  )

  it('finds no draw on an empty reel', () => {
    expect(drawWithChance({ ...model, net: measured(0, 1) }, 0.95)).toBe(0)
    expect(drawWithChance({ ...model, net: measured(-50, 10) }, 0.5)).toBe(0)
  })

  it('states the available draw with the spread about its median', () => {
    const { value, u } = availableDraw(model)
    expect(chanceAt(model, value)).toBeCloseTo(0.5, 9)
    expect(chanceAt(model, value - u)).toBeCloseTo(0.84, 1)
  })
})
