import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  defaultShelfPriors,
  estimateShelf,
  learnSpreads,
  medianSpread,
  normalCdf,
  normalDensity,
  normalQuantile,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type SpreadFactors,
  type SpreadName,
  spreadNames,
  withSpreads,
} from '../../src/estimate/index.ts'
import { factorise, inverseFromFactor } from '../../src/estimate/shelf-cholesky.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, millimetres } from '../../src/units/index.ts'

const catalogue = (makes: number, reels: number): ShelfCatalogue => ({
  makes: Array.from({ length: makes }, (_, i) => ({ id: `make ${i}`, material: 'PLA' })),
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: Array.from({ length: makes * reels }, (_, i) => ({
    id: `reel ${i}`,
    make: `make ${i % makes}`,
  })),
})

/** Empty carriers that differ from reel to reel by so many grams. */
const carriers = (shelf: ShelfCatalogue, sd: number): readonly ShelfFact[] => {
  const random = new SeededRandom(4)
  return shelf.reels.map(({ id: reel, make }, i) => ({
    kind: 'carrier-weighed',
    id: `e${i}`,
    at: i,
    make,
    reel,
    scale: 'galley',
    reading: grams(Math.round(240 + random.normal(0, sd))),
  }))
}

/** Standard deviation of ln f beforehand. */
const before = (name: SpreadName): number => (name === 'tare' ? Math.LN2 / 2 : Math.LN2)

/** Median of f beforehand. */
const middle = (name: SpreadName): number => (name === 'tare' ? 1.2 : 1.3)

/** Squared distance of all ln f from their means by their covariance: half of each variance in common. */
const distance = (factors: SpreadFactors): number => {
  const size = spreadNames.length
  const covariance = Float64Array.from({ length: size * size }, (_, place) => {
    const [i, j] = [Math.floor(place / size), place % size]
    return before(spreadNames[i]!) * before(spreadNames[j]!) * (i === j ? 1 : 0.5)
  })
  factorise(covariance, size)
  const precision = inverseFromFactor(covariance, size)
  const logs = spreadNames.map((name) => Math.log(factors[name] / middle(name)))
  return precision.reduce(
    (sum, each, place) => sum + each * logs[Math.floor(place / size)]! * logs[place % size]!,
    0,
  )
}

describe('spreads learnt from a shelf', () => {
  it('are wider than guessed where nothing was seen, and wider yet for being doubted', () => {
    const none = estimateShelf(catalogue(2, 3), [])
    const { likeliest, doubt, told, factors, priors } = learnSpreads(none)
    for (const name of spreadNames) {
      expect(likeliest[name]).toBeCloseTo(middle(name), 9)
      expect(doubt[name]).toBeCloseTo(before(name), 6)
      expect(told[name]).toBe(false)
      expect(factors[name]).toBeCloseTo(middle(name) * Math.exp(0.75 * before(name) ** 2), 6)
    }
    expect(priors.unknownTare[3]!.tare.u).toBeCloseTo(60 * factors.tare, 9)
    expect(priors.carrierKinds.metal.u).toBeCloseTo(120 * factors.tare, 9)
    expect(priors.carrierOfOneMake.u).toBeCloseTo(4 * 1.3 * Math.exp(0.75 * Math.LN2 ** 2), 5)
    expect(priors.scaleOverStated.value).toBeCloseTo(1.3 * Math.exp(0.75 * Math.LN2 ** 2), 6)
  })

  it.each([1, 4, 12])('carriers that differ by %i g', (sd) => {
    const shelf = catalogue(3, 12)
    const { factors, doubt, told } = learnSpreads(estimateShelf(shelf, carriers(shelf, sd)))
    expect(doubt.carrier).toBeLessThan(0.3)
    expect(Math.abs(Math.log((factors.carrier * 4) / sd))).toBeLessThan(3 * doubt.carrier)
    expect(told).toMatchObject({ carrier: true, feedFactor: false, start: false })
  })

  it('of what nothing is seen they go along half the way, and the doubt with them', () => {
    const shelf = catalogue(3, 12)
    const learnt = [1, 12].map((sd) =>
      learnSpreads(estimateShelf(shelf, carriers(shelf, sd)), { sweeps: 8 }),
    )
    const along = (name: SpreadName): number =>
      Math.log(learnt[1]!.likeliest[name] / learnt[0]!.likeliest[name])
    for (const name of ['overfill', 'feedFactor', 'start', 'scale'] as const) {
      expect(along(name) / along('carrier')).toBeGreaterThan(0.4)
      expect(along(name) / along('carrier')).toBeLessThan(0.6)
      for (const { doubt } of learnt) {
        // Of two that are correlated by one half, one known exactly leaves √¾ of the other's doubt.
        expect(doubt[name]).toBeLessThan(Math.LN2)
        expect(doubt[name]).toBeGreaterThan(0.75 * Math.LN2)
      }
    }
  })

  it('are where the density of readings and factors has its top', () => {
    const shelf = catalogue(2, 8)
    const facts = carriers(shelf, 8)
    const estimate = estimateShelf(shelf, facts)
    const { likeliest } = learnSpreads(estimate, { sweeps: 5 })
    const cost = (factors: SpreadFactors): number => {
      const priors = withSpreads(defaultShelfPriors, factors)
      const { shared } = estimateShelf(shelf, facts, { priors, rounds: 1 })
      return shared.misfit / 2 + distance(factors) / 2
    }
    for (const name of spreadNames) {
      const moved = (by: number): number => cost({ ...likeliest, [name]: likeliest[name] * by })
      expect(moved(1.5)).toBeGreaterThan(cost(likeliest))
      expect(moved(1 / 1.5)).toBeGreaterThan(cost(likeliest))
    }
  })

  it('of prints, when a printer feeds by fits and starts', () => {
    const shelf = catalogue(1, 1)
    const random = new SeededRandom(9)
    const fed = (sd: number): ShelfEstimate => {
      let gross = 1243
      const weighed = (id: string, at: number): ShelfFact => {
        const seen = { scale: 'galley', reading: grams(Math.round(gross)) }
        return { kind: 'weighed', id, at, reel: 'reel 0', ...seen }
      }
      const facts: ShelfFact[] = [weighed('w', 0)]
      for (let i = 1; i <= 24; i++) {
        // Short ones tell of starts and of the scale, long ones of the feed.
        const metres = i % 2 === 0 ? 2 : 20
        const length = millimetres(1000 * metres)
        facts.push({ kind: 'drew', id: `d${i}`, at: i, reel: 'reel 0', printer: 'gull', length })
        gross -= 2.98 * (metres * (1 + random.normal(0, sd)) + 0.05)
        facts.push(weighed(`w${i}`, i + 0.5))
      }
      return estimateShelf(shelf, facts)
    }
    expect(learnSpreads(fed(0.03)).factors.feedOfOneDraw).toBeGreaterThan(4)
    expect(learnSpreads(fed(0.003)).factors.feedOfOneDraw).toBeLessThan(2.5)
  })

  it('of the reels with most facts only, where there are many', () => {
    const shelf = catalogue(1, 30)
    const facts = carriers(shelf, 4)
    const few = learnSpreads(estimateShelf(shelf, facts), { mostReels: 10 })
    const same = learnSpreads(estimateShelf(shelf, facts.slice(0, 10)))
    expect(few.factors.carrier).toBeCloseTo(same.factors.carrier, 9)
  })
})

it('a spread in doubt is widened to the 95 % point of its mixture', () => {
  for (const u of [0.4, 0.5, 0.6, Math.LN2]) {
    // z = 1.6449·exp(¾·u²) under the mean over ln f ~ N(0, u²), by the rule of the trapezium.
    const limit = normalQuantile(0.95) * Math.exp(0.75 * u ** 2)
    let sum = 0
    for (let x = -8; x <= 8; x += 0.01) {
      sum += 0.01 * normalDensity(x) * normalCdf(limit / Math.exp(u * x))
    }
    expect(Math.abs(sum - 0.95)).toBeLessThan(0.0025)
  }
})

it('an interval that is guessed to hold the truth half the time holds it 44 times in a hundred', () => {
  for (const name of ['tare', 'carrier'] as const) {
    // Under the mean over ln f, by the rule of the trapezium.
    const limit = normalQuantile(0.75) / medianSpread[name]
    let inside = 0
    for (let x = -8; x <= 8; x += 0.01) {
      const within = 2 * normalCdf(limit / Math.exp(before(name) * x)) - 1
      inside += 0.01 * normalDensity(x) * within
    }
    expect(Math.abs(inside - 0.44)).toBeLessThan(0.005)
  }
})

it('factors of one leave the priors as they are', () => {
  const ones = Object.fromEntries(spreadNames.map((name) => [name, 1])) as SpreadFactors
  const same = withSpreads(defaultShelfPriors, ones)
  expect(same.feedFactor.u).toBeCloseTo(defaultShelfPriors.feedFactor.u, 12)
  expect({ ...same, feedFactor: 0 }).toEqual({ ...defaultShelfPriors, feedFactor: 0 })
})
