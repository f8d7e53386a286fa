import { describe, expect, it } from 'vitest'
import {
  defaultShelfPriors,
  estimateShelf,
  type LearntSpreads,
  learnSpreads,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type ShelfPriors,
  type StandIn,
  shelfAsKnownAt,
  shelfBelief,
  withFacts,
  withoutFacts,
  withoutWeighing,
} from '../../src/estimate/index.ts'
import { withApart, withPriors } from '../../src/estimate/shelf-estimate.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, millimetres } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PLA' }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [
    { id: 'first', make: 'quay' },
    { id: 'second', make: 'quay' },
  ],
}
const opened = (id: string, at: number, reel: string): ShelfFact => {
  const label = { labelNet: grams(1000) }
  return { kind: 'opened', id, at, reel, ...label }
}
const weighed = (id: string, at: number, reel: string, reading: number): ShelfFact => {
  const seen = { scale: 'galley', reading: grams(reading) }
  return { kind: 'weighed', id, at, reel, ...seen }
}
const drew = (id: string, at: number, reel: string, metres: number): ShelfFact => {
  const fed = { printer: 'gull', length: millimetres(1000 * metres) }
  return { kind: 'drew', id, at, reel, ...fed }
}
const empty: ShelfFact = {
  kind: 'carrier-weighed',
  id: 'e',
  at: 3,
  make: 'quay',
  scale: 'galley',
  reading: grams(231),
}
const facts: readonly ShelfFact[] = [
  opened('a', 0, 'first'),
  weighed('b', 1, 'first', 1243),
  drew('c', 2, 'first', 40),
  empty,
  weighed('d', 4, 'first', 1118),
  opened('f', 5, 'second'),
  drew('g', 6, 'second', 90),
]

const taken = (learnt: LearntSpreads): ShelfEstimate => {
  const { priors, standIns } = learnt
  return estimateShelf(catalogue, facts, { priors, standIns })
}
const learnt = learnSpreads(estimateShelf(catalogue, facts))
const estimate = taken(learnt)

const ofPrinter = ({ feedFactor, feedOfOneDraw }: ShelfPriors): number =>
  Math.sqrt(feedFactor.u ** 2 - feedOfOneDraw.u ** 2)

/** ln f of all spreads, the tare's first, as the priors of a stand-in have them. */
const logsOf = ({ of }: StandIn<ShelfPriors>): readonly number[] => {
  const usual = defaultShelfPriors
  return [
    of.unknownTare[3]!.tare.u / usual.unknownTare[3]!.tare.u,
    of.carrierOfOneMake.u / usual.carrierOfOneMake.u,
    of.overfill.u / usual.overfill.u,
    of.densityOverTable.value,
    ofPrinter(of) / ofPrinter(usual),
    of.feedOfOneDraw.u / usual.feedOfOneDraw.u,
    of.startOfOneDraw.u / usual.startOfOneDraw.u,
    of.scaleOverStated.value,
  ].map(Math.log)
}
const doubts = [0.5, 1, 1, 1, 1, 1, 1, 1].map((part) => part * Math.LN2)

/** Their means beforehand. */
const middles = [1.2, 1.3, 1.3, 1.3, 1.3, 1.3, 1.3, 1.3].map(Math.log)

/** Of ln f from its mean by the prior, any two of which are correlated by one half. */
const squaredDistance = (logs: readonly number[]): number => {
  const own = logs.map((log, i) => (log - middles[i]!) / doubts[i]!)
  const sum = own.reduce((before, each) => before + each, 0)
  const squares = own.reduce((before, each) => before + each ** 2, 0)
  return 2 * squares - (2 / (own.length + 1)) * sum ** 2
}

describe('stand-ins for spreads in doubt', () => {
  it('have mean, covariance and no third moment of what is believed before anything is seen', () => {
    const none = estimateShelf(catalogue, [])
    const { standIns } = learnSpreads(none)
    expect(standIns).toHaveLength(16)
    for (const { weight } of standIns) expect(weight).toBeCloseTo(1 / 16, 9)
    const logs = standIns.map((one) => logsOf(one).map((log, i) => log - middles[i]!))
    const mean = (of: (log: readonly number[]) => number): number =>
      logs.reduce((sum, log) => sum + of(log) / 16, 0)
    for (const [i, own] of doubts.entries()) {
      expect(mean((log) => log[i]!)).toBeCloseTo(0, 9)
      for (const [j, other] of doubts.entries()) {
        expect(mean((log) => log[i]! * log[j]!)).toBeCloseTo(own * other * (i === j ? 1 : 0.5), 6)
        expect(mean((log) => log[i]! ** 2 * log[j]!)).toBeCloseTo(0, 9)
      }
    }
  })

  it('weigh 1 together, each by the density of readings and factors under it', () => {
    const { standIns } = learnt
    expect(standIns.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12)
    const told = estimateShelf(catalogue, facts)
    const density = standIns.map((one) => {
      const misfit = withPriors(told, one.of).shared.misfit + squaredDistance(logsOf(one))
      return -misfit / 2
    })
    const most = Math.max(...density)
    const all = density.reduce((sum, each) => sum + Math.exp(each - most), 0)
    for (const [i, { weight }] of standIns.entries()) {
      expect(weight).toBeCloseTo(Math.exp(density[i]! - most) / all, 6)
    }
    expect(most - Math.min(...density)).toBeGreaterThan(0.3)
  })

  it('are fewer where fewer spreads are in doubt, and none where none is', () => {
    const none = estimateShelf(catalogue, [])
    // The tare is doubted half as much as the rest, and so taken as known first.
    expect(learnSpreads(none, { doubt: 0.2 }).standIns).toHaveLength(16)
    expect(learnSpreads(none, { doubt: 0.14 }).standIns).toEqual([])
    const many = Array.from({ length: 100_001 }, (_, i) => drew(`m${i}`, 10 + i, 'second', 0.001))
    const large = { ...none, reelFacts: [[], many] }
    expect(learnSpreads(large, { sweeps: 1, mostReels: 0 }).standIns).toEqual([])
    const known = taken({ ...learnt, standIns: [] })
    expect(known.standIns()).toEqual([])
    expect(shelfBelief(known, 'first').standIns).toBeUndefined()
  })
})

/** Reckoned from nothing with the priors of the stand-in, about the same point. */
const afresh = (
  { point }: ShelfEstimate,
  told: readonly ShelfFact[],
  { of: { book } }: StandIn<ShelfEstimate>,
): ShelfEstimate => estimateShelf(catalogue, told, { priors: book.priors, rounds: 1, about: point })

describe('an estimate under each of them', () => {
  const more = [drew('h', 7, 'first', 20), weighed('i', 8, 'first', 1057)]
  const without = (id: string): readonly ShelfFact[] => facts.filter((fact) => fact.id !== id)
  const changes: readonly [string, ShelfEstimate, readonly ShelfFact[]][] = [
    ['as it is', estimate, facts],
    ['with facts more', withFacts(estimate, more), [...facts, ...more]],
    [
      'with facts less',
      withoutFacts(estimate, ['e', 'g']),
      without('e').filter((f) => f.id !== 'g'),
    ],
    ['without a weighing', withoutWeighing(estimate, 'd'), without('d')],
    [
      'with facts more and a weighing less',
      withoutWeighing(withFacts(estimate, more), 'd'),
      [...without('d'), ...more],
    ],
    ['as known at a time', shelfAsKnownAt(estimate, 2), facts.slice(0, 3)],
  ]

  it.each(changes)('%s is what its priors alone would give', (_, after, told) => {
    const standIns = after.standIns()
    expect(standIns.map(({ weight }) => weight)).toEqual(learnt.standIns.map((one) => one.weight))
    for (const one of standIns) {
      const found = reelPosterior(one.of, 'first', { printer: 'gull', ofMake: true })
      const oracle = reelPosterior(afresh(after, told, one), 'first', {
        printer: 'gull',
        ofMake: true,
      })
      for (const [i, mean] of oracle.mean.entries()) expect(found.mean[i]).toBeCloseTo(mean, 8)
      for (const [i, entry] of oracle.covariance.entries()) {
        expect(found.covariance[i]).toBeCloseTo(entry, 7)
      }
    }
  })

  it('sets the same reels apart', () => {
    const apart = withApart(estimate, new Set([1]))
    for (const { of } of apart.standIns()) {
      expect(of.apart).toEqual(new Set([1]))
      const alone = afresh(apart, facts.slice(0, 5), { weight: 1, of })
      const [found, oracle] = [of, alone].map((one) => reelPosterior(one, 'first'))
      for (const [i, mean] of oracle!.mean.entries()) expect(found!.mean[i]).toBeCloseTo(mean, 8)
    }
  })

  it('has no stand-ins of its own, and writes no tape anew that its priors are not in', () => {
    const { tapes } = estimate
    for (const { of } of estimate.standIns()) expect(of.standIns()).toEqual([])
    const { priors } = estimate.book
    const wider = { ...priors.overfill, u: 2 * priors.overfill.u }
    expect(withPriors(estimate, { ...priors, overfill: wider }).tapes).toBe(tapes)
    const scaleOverStated = { ...priors.scaleOverStated, value: 2 }
    expect(withPriors(estimate, { ...priors, scaleOverStated }).tapes).not.toBe(tapes)
  })
})
