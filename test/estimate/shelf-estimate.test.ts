import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  covarianceOf,
  defaultShelfPriors,
  estimateShelf,
  type LinearForm,
  marginal,
  reelPosterior,
  type ShelfEstimate,
  type ShelfFact,
  type SpreadFactors,
  shelfAsKnownAt,
  shelfNames,
  shelfNets,
  withFacts,
  withoutFacts,
  withoutWeighing,
  withSpreads,
} from '../../src/estimate/index.ts'
import { grams } from '../../src/units/index.ts'
import { randomShelf } from './random-shelf.ts'
import { shelfTwin } from './shelf-twin.ts'

/** Where the net is unknown within a history, variances of (3 kg)² cancel in both. */
const tightFor = (facts: readonly ShelfFact[]): number =>
  facts.some((fact) => 'afterUnrecorded' in fact) ? 5e-6 : 1e-8

const asGuessed: SpreadFactors = {
  tare: 1,
  carrier: 1,
  overfill: 1,
  linearDensity: 1,
  feedFactor: 1,
  feedOfOneDraw: 1,
  start: 1,
  scale: 1,
}

/** Every reel of the estimate against the twin: means and covariances, in standard deviations. */
const farthest = (estimate: ShelfEstimate, at?: number): number => {
  const { book, point, reelFacts, makeFacts } = estimate
  const { catalogue, priors } = book
  const twin = shelfTwin(catalogue, [...reelFacts, ...makeFacts].flat(), priors, point, at)
  let off = 0
  for (const { id } of catalogue.reels) {
    for (const printer of catalogue.printers) {
      for (const scale of catalogue.scales) {
        const fast = reelPosterior(estimate, id, {
          printer: printer.id,
          scale: scale.id,
          water: true,
          ...(at === undefined ? {} : { at }),
        })
        const forms: LinearForm[] = [
          twin.tare(id),
          twin.net(id, at),
          twin.linearDensity(id),
          twin.water(id),
          { terms: { [`feed factor of ${printer.id}`]: 1 } },
          { terms: { [`start allowance of ${printer.id}`]: 1 } },
          { terms: { [`gain of ${scale.id}`]: 1 } },
        ]
        const slow = forms.map((form) => marginal(twin.joint, form))
        for (const [i, { value, u }] of slow.entries()) {
          off = Math.max(off, Math.abs(fast.mean[i]! - value) / Math.max(u, Math.abs(value), 1e-9))
          for (const [j, other] of slow.entries()) {
            const entry = covarianceOf(twin.joint, forms[i]!, forms[j]!)
            const size = Math.max(u * other.u, 1e-12)
            off = Math.max(off, Math.abs(fast.covariance[7 * i + j]! - entry) / size)
          }
        }
      }
    }
  }
  return off
}

describe('the fast estimate of a shelf and its dense twin', () => {
  it.each(Array.from({ length: 40 }, (_, seed) => [seed]))('agree on shelf %i', (seed) => {
    const { catalogue, facts } = randomShelf(new SeededRandom(seed))
    const tight = tightFor(facts)
    expect(farthest(estimateShelf(catalogue, facts, { rounds: 1 }))).toBeLessThan(tight)
    expect(farthest(estimateShelf(catalogue, facts))).toBeLessThan(tight)
  })

  it.each(Array.from({ length: 20 }, (_, seed) => [300 + seed]))(
    'agree on how well the readings of shelf %i fit, scales better and worse than stated',
    (seed) => {
      const { catalogue, facts } = randomShelf(new SeededRandom(seed))
      for (const scale of [1, 2.5]) {
        const priors = withSpreads(defaultShelfPriors, { ...asGuessed, scale })
        const { shared, point } = estimateShelf(catalogue, facts, { priors })
        const { misfit } = shelfTwin(catalogue, facts, priors, point)
        expect(Math.abs(shared.misfit - misfit)).toBeLessThan(1e-6 * Math.max(1, Math.abs(misfit)))
      }
    },
  )

  it.each(Array.from({ length: 10 }, (_, seed) => [100 + seed]))(
    'agree about the past and the future of shelf %i',
    (seed) => {
      const { catalogue, facts } = randomShelf(new SeededRandom(seed))
      const estimate = estimateShelf(catalogue, facts)
      for (const at of [0, facts.length / 2, facts.length, 3 * facts.length]) {
        expect(farthest(estimate, at)).toBeLessThan(tightFor(facts))
      }
    },
  )

  it('would tell a wrong covariance', () => {
    const { catalogue, facts } = randomShelf(new SeededRandom(3))
    const estimate = estimateShelf(catalogue, facts)
    const spoilt = estimate.shared.coreCovariance.map((entry) => entry * (1 + 1e-5))
    expect(
      farthest({ ...estimate, shared: { ...estimate.shared, coreCovariance: spoilt } }),
    ).toBeGreaterThan(tightFor(facts))
  })
})

/** Largest difference of two estimates of one shelf over all reels. */
const between = (a: ShelfEstimate, b: ShelfEstimate): number => {
  let off = 0
  for (const { id } of a.book.catalogue.reels) {
    const one = reelPosterior(a, id)
    const other = reelPosterior(b, id)
    for (let i = 0; i < 3; i++) {
      const variance = one.covariance[4 * i]!
      // The net of an emptied reel is exactly 0.
      const unit = Math.max(variance, 1e-18)
      off = Math.max(off, Math.abs(one.mean[i]! - other.mean[i]!) / Math.sqrt(unit))
      off = Math.max(off, Math.abs(variance - other.covariance[4 * i]!) / unit)
    }
  }
  return off
}

const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (error) {
    return (error as { code: string }).code
  }
  return 'none'
}

describe('a shelf estimate', () => {
  const shelves = Array.from({ length: 12 }, (_, i) => randomShelf(new SeededRandom(200 + i)))

  it('does not care in which order facts come, as long as they are dated', () => {
    const random = new SeededRandom(7)
    for (const { catalogue, facts } of shelves) {
      const mixed = facts
        .map((fact) => ({ fact, key: random.uniform() }))
        .toSorted((a, b) => a.key - b.key)
        .map(({ fact }) => fact)
      expect(between(estimateShelf(catalogue, facts), estimateShelf(catalogue, mixed))).toBe(0)
    }
  })

  it('does not care about the order of readings with nothing fed between', () => {
    for (const { catalogue: all, facts } of shelves) {
      // What takes up water is another reel on another day.
      const makes = all.makes.map((make) => Object.assign({}, make, { hygroscopic: false }))
      const catalogue = { ...all, makes }
      const changes = new Set(['drew', 'trimmed', 'emptied'])
      const readings = facts.filter(
        (fact) => !changes.has(fact.kind) && !('afterUnrecorded' in fact),
      )
      const opened = readings.filter(({ kind }) => kind === 'opened')
      const rest = readings.filter(({ kind }) => kind !== 'opened')
      const back = rest.toReversed().map((fact, i) => Object.assign({}, fact, { at: 1e6 + i }))
      const there = estimateShelf(catalogue, readings, { rounds: 1 })
      const other = estimateShelf(catalogue, [...opened, ...back], { rounds: 1 })
      expect(between(there, other)).toBeLessThan(1e-7)
    }
  })

  it('takes one fact more, or one less, as if reckoned from scratch at the same point', () => {
    for (const { catalogue, facts } of shelves) {
      const [last] = facts.slice(-1) as [ShelfFact]
      const less = estimateShelf(catalogue, facts.slice(0, -1), { rounds: 1 })
      const whole = estimateShelf(catalogue, facts, { rounds: 1 })
      expect(between(withFacts(less, [last]), whole)).toBe(0)
      expect(between(withoutFacts(whole, [last.id]), less)).toBe(0)
    }
    const { catalogue, facts } = shelves[0]!
    expect(() => withoutFacts(estimateShelf(catalogue, facts), ['none'])).toThrow('none')
  })

  it('takes a weighing out and leaves its reel opened', () => {
    const { catalogue, facts } = randomShelf(new SeededRandom(8))
    const weighing = { scale: catalogue.scales[0]!.id, reading: grams(1240) }
    const reel = { id: 'one more', make: catalogue.makes[0]!.id }
    const opened: ShelfFact = {
      kind: 'opened',
      id: 'new',
      at: 0,
      reel: reel.id,
      labelNet: grams(1000),
    }
    const whole = { ...catalogue, reels: [...catalogue.reels, reel] }
    const without = estimateShelf(whole, [opened, ...facts])
    const { point } = without
    const seen = { ...opened, grossWhenNew: weighing } as ShelfFact
    const estimate = {
      ...estimateShelf(whole, [seen, ...facts], { about: point, rounds: 1 }),
      point,
    }
    const back = shelfNets(withoutWeighing(estimate, 'new'))
    const now = shelfNets(without)
    for (const [i, value] of now.value.entries()) expect(back.value[i]!).toBeCloseTo(value, 8)
    expect(() => withoutWeighing(estimate, 'nothing')).toThrow('there is no fact nothing')
  })

  it('knows what was known at a time', () => {
    for (const { catalogue, facts } of shelves) {
      const at = facts.length / 2
      const then = estimateShelf(
        catalogue,
        facts.filter((fact) => fact.at <= at),
      )
      expect(between(shelfAsKnownAt(estimateShelf(catalogue, facts), at), then)).toBe(0)
    }
  })

  it('gives the nets of all reels as it gives them one by one', () => {
    for (const { catalogue, facts } of shelves) {
      const estimate = estimateShelf(catalogue, facts)
      const { value, u } = shelfNets(estimate)
      for (const [i, { id }] of catalogue.reels.entries()) {
        const net = marginal(reelPosterior(estimate, id), { terms: { [shelfNames.net]: 1 } })
        expect(Math.abs(value[i]! - net.value)).toBeLessThan(1e-6)
        expect(Math.abs(u[i]! - net.u)).toBeLessThanOrEqual(1e-9 * net.u)
      }
    }
  })

  it('names what is broken', () => {
    const catalogue = {
      makes: [{ id: 'm' }],
      printers: [],
      scales: [],
      reels: [{ id: 'r', make: 'm' }],
    }
    const opened = { kind: 'opened', id: 'o', at: 1, reel: 'r' } as const
    const draw = { kind: 'drew', id: 'd', at: 2, reel: 'r', printer: 'p', length: 1 } as const
    const trying = (facts: readonly unknown[]) => () => estimateShelf(catalogue, facts as never)
    expect(codeOf(trying([opened]))).toBe('none')
    expect(codeOf(trying([draw]))).toBe('unknown_id')
    expect(codeOf(trying([{ ...opened, reel: 'x' }]))).toBe('unknown_id')
    expect(codeOf(trying([opened, { ...opened, at: 2 }]))).toBe('opened_not_first')
    expect(codeOf(trying([{ ...opened, labelNet: -1 }]))).toBe('impossible_fact')
    const lengthless = {
      kind: 'measured',
      id: 'x',
      at: 2,
      reel: 'r',
      linearDensity: { value: 3, u: 0 },
    }
    expect(codeOf(trying([lengthless]))).toBe('impossible_fact')
    const twice = { ...catalogue, reels: [...catalogue.reels, ...catalogue.reels] }
    expect(codeOf(() => estimateShelf(twice, []))).toBe('id_twice')
    const strange = { ...catalogue, makes: [{ id: 'm', material: 'seaweed' }] }
    expect(codeOf(() => estimateShelf(strange, []))).toBe('material_unknown')
    expect(defaultShelfPriors.overfillOfOneMake.u).toBeLessThan(defaultShelfPriors.overfill.u)
  })
})
