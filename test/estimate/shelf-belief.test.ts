import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  covarianceOf,
  defaultShelfPriors,
  estimateShelf,
  type LinearForm,
  makePosterior,
  marginal,
  netOf,
  printerPosterior,
  type ReelBelief,
  type ReelWeighed,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  shelfBelief,
  sumOf,
  weighingSurprise,
  withFacts,
  withoutFacts,
} from '../../src/estimate/index.ts'
import { kitchenScale, readingVariance } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
} from '../../src/units/index.ts'
import { randomShelf } from './random-shelf.ts'
import { shelfTwin } from './shelf-twin.ts'

const priors = defaultShelfPriors
const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PLA', carrier: 'plastic' }, { id: 'mole' }],
  printers: [{ id: 'gull' }, { id: 'tern', feedFactor: measured(1) }],
  scales: [{ id: 'galley', scale: { ...kitchenScale, gain: 0.002 } }],
  reels: [
    { id: 'first', make: 'quay' },
    { id: 'second', make: 'quay' },
    { id: 'other', make: 'mole' },
  ],
}
let clock = 0
const fact = (kind: ShelfFact['kind'], more: object): ShelfFact => {
  clock++
  return Object.assign({ kind, id: `f${clock}`, at: clock } as ShelfFact, more)
}
const opened = (reel = 'first'): ShelfFact => fact('opened', { reel, labelNet: grams(1000) })
const weighed = (reading: number, reel = 'first'): ShelfFact =>
  fact('weighed', { reel, scale: 'galley', reading: grams(reading) })
const drew = (metres: number, printer = 'gull', reel = 'first'): ShelfFact =>
  fact('drew', { reel, printer, length: millimetres(1000 * metres) })
const believe = (
  facts: readonly ShelfFact[],
  options: Parameters<typeof shelfBelief>[2] = { printer: 'gull', scale: 'galley' },
): ReelBelief => shelfBelief(estimateShelf(catalogue, facts), 'first', options)
const idsOf = (list: readonly { readonly id: string }[]): readonly string[] =>
  list.map(({ id }) => id)

const one = (name: string, weight = 1): LinearForm => ({ terms: { [name]: weight } })

describe('the forms of a shelf belief', () => {
  it.each(Array.from({ length: 15 }, (_, seed) => [seed]))('are the dense twin’s, %i', (seed) => {
    const { catalogue: shelf, facts } = randomShelf(new SeededRandom(200 + seed))
    const estimate = estimateShelf(shelf, facts)
    const twin = shelfTwin(shelf, facts, priors, estimate.point)
    const printer = shelf.printers[0]!.id
    const scale = shelf.scales[0]!.id
    for (const { id, make } of shelf.reels) {
      const belief = shelfBelief(estimate, id, { printer, scale })
      const { nominalArea, density } = estimate.book.makes[estimate.book.makeAt.get(make)!]!
      const fast = [
        belief.net,
        belief.linearDensity,
        belief.tare,
        belief.gain,
        belief.nextPrint!.meanFeedFactor,
        belief.nextPrint!.meanStartAllowance,
        { terms: { make_tare: 1 } },
        { terms: { make_density: 1 } },
        { terms: { make_linear_density: 1 } },
      ]
      const slow = [
        twin.net(id),
        twin.linearDensity(id),
        twin.tare(id),
        one(`gain of ${scale}`),
        one(`feed factor of ${printer}`),
        one(`start allowance of ${printer}`),
        one(`mean tare of ${make}`),
        one(`mean density of ${make}`),
        sumOf(
          one(`mean density of ${make}`, nominalArea),
          one(`area of ${make} off nominal`, nominalArea * density.value),
        ),
      ]
      for (const [i, form] of slow.entries()) {
        const { value, u } = marginal(twin.joint, form)
        const got = marginal(belief.joint, fast[i]!)
        expect(Math.abs(got.value - value) / Math.max(u, Math.abs(value), 1e-9)).toBeLessThan(1e-8)
        for (const [j, other] of slow.entries()) {
          const size = Math.max(u * marginal(twin.joint, other).u, 1e-12)
          const expected = covarianceOf(twin.joint, form, other)
          const off = covarianceOf(belief.joint, fast[i]!, fast[j]!) - expected
          expect(Math.abs(off) / size).toBeLessThan(1e-8)
        }
      }
    }
  })

  it('give a next print the spread of one print about the printer’s mean', () => {
    const estimate = estimateShelf(catalogue, [opened(), drew(20), weighed(1180)])
    const { joint, nextPrint } = shelfBelief(estimate, 'first', { printer: 'gull' })
    const { feedFactor, startAllowance } = printerPosterior(estimate, 'gull')
    const next = marginal(joint, nextPrint!.feedFactor)
    expect(next.value).toBeCloseTo(feedFactor.value, 12)
    expect(next.u).toBeCloseTo(Math.hypot(feedFactor.u, next.value * priors.feedOfOneDraw.u), 12)
    const start = marginal(joint, nextPrint!.startAllowance)
    expect(start.u).toBeCloseTo(Math.hypot(startAllowance.u, 30), 9)
  })

  it('give a printer nobody has learnt its prior spread', () => {
    const { joint, nextPrint } = believe([opened()])
    expect(marginal(joint, nextPrint!.feedFactor).u).toBeCloseTo(0.015, 12)
    expect(marginal(joint, nextPrint!.startAllowance).u).toBeCloseTo(80, 9)
  })

  it('give another reel its make and a spread of its own', () => {
    const estimate = estimateShelf(catalogue, [opened(), weighed(1240)])
    const { joint, another } = shelfBelief(estimate, 'first')
    const { tare, linearDensity } = makePosterior(estimate, 'quay')
    expect(marginal(joint, another!.tare).u).toBeCloseTo(Math.hypot(tare.u, 4), 10)
    const fresh = marginal(joint, another!.linearDensity)
    expect(fresh.value).toBeCloseTo(linearDensity.value, 12)
    expect(fresh.u).toBeCloseTo(Math.hypot(linearDensity.u, 0.01 * 1.24 * 2.405282), 5)
  })

  it('take the area as calipers would see it: what they show moves the reel as it does in the shelf', () => {
    const before = estimateShelf(catalogue, [opened(), drew(100)])
    const belief = shelfBelief(before, 'first', { printer: 'gull' })
    const d = measured(millimetres(1.74), 0.004)
    const after = withFacts(before, [
      fact('measured', { reel: 'first', calipers: { places: [[d, d]] } }),
    ])
    const seen = shelfBelief(after, 'first', { printer: 'gull' })
    const u = seen.used.find(({ id }) => id === 'calipers')!.u
    const slope = covarianceOf(belief.joint, belief.linearDensity, belief.area)
    const area = marginal(belief.joint, belief.area)
    const expected = Math.sqrt(
      marginal(belief.joint, belief.linearDensity).u ** 2 - slope ** 2 / (area.u ** 2 + u ** 2),
    )
    expect(marginal(seen.joint, seen.linearDensity).u / expected).toBeCloseTo(1, 2)
  })

  it('have a usual scale of unknown gain unless one is named', () => {
    const facts = [opened(), weighed(1240)]
    const named = believe(facts)
    expect(named.scale.gain).toBe(0.002)
    expect(covarianceOf(named.joint, named.gain, named.tare)).not.toBe(0)
    const unnamed = believe(facts, {})
    expect(unnamed.scale).toBe(kitchenScale)
    expect(marginal(unnamed.joint, unnamed.gain)).toEqual({ value: 0, u: kitchenScale.gain })
    expect(unnamed.nextPrint).toBeUndefined()
  })

  it('refuse ids that are not in the catalogue', () => {
    const estimate = estimateShelf(catalogue, [])
    expect(() => shelfBelief(estimate, 'nobody')).toThrow(/there is no reel nobody/)
    expect(() => shelfBelief(estimate, 'first', { printer: 'heron' })).toThrow(/no printer heron/)
    expect(() => shelfBelief(estimate, 'first', { scale: 'heron' })).toThrow(/no scale heron/)
  })
})

const spreadOfNet = (of: ShelfEstimate): number => netOf(shelfBelief(of, 'first')).u

describe('what was used', () => {
  it.each(Array.from({ length: 15 }, (_, seed) => [seed]))(
    'lies as far off the rest as an estimate without it says, shelf %i',
    (seed) => {
      const { catalogue: shelf, facts } = randomShelf(new SeededRandom(300 + seed))
      const estimate = estimateShelf(shelf, facts)
      const all = shelfTwin(shelf, facts, priors, estimate.point)
      for (const { id: reel } of shelf.reels) {
        const ofReel = facts.filter((each) => 'reel' in each && each.reel === reel)
        const { used } = shelfBelief(estimate, reel)
        // The twin expands the product with the water where each set of facts leads it; see below.
        if (estimate.tapes[estimate.book.reelAt.get(reel)!]!.water !== undefined) continue
        // Without its only reading a part-used reel would be believed to hold no more than its label.
        if (ofReel.some((each) => 'partUsed' in each)) continue
        // Without the reading that stands for itself the net would not be unknown before it.
        const changes = ofReel.filter(({ kind }) => kind === 'drew' || kind === 'trimmed')
        if (changes.some((each) => 'afterUnrecorded' in each)) continue
        const isEmptied = netOf(shelfBelief(estimate, reel)).u === 0
        for (const { fact: id, off, weightOnNet, weightOnLinearDensity } of used) {
          const left = facts.find((each) => each.id === id)!
          // An opening tells its label as well, an accepted surprise that something changed.
          if (left.kind === 'opened' || 'afterUnrecorded' in left) continue
          const others = facts.filter((each) => each !== left)
          const { joint, ...twin } = shelfTwin(shelf, others, priors, estimate.point)
          const weightOn = (form: (of: string) => LinearForm): number =>
            1 - (marginal(all.joint, form(reel)).u / marginal(joint, form(reel)).u) ** 2
          expect(weightOnNet).toBeCloseTo(isEmptied ? 0 : weightOn((of) => twin.net(of)), 6)
          expect(weightOnLinearDensity).toBeCloseTo(weightOn(twin.linearDensity), 6)
          if (left.kind !== 'weighed') continue
          const load = sumOf(twin.tare(reel), twin.net(reel, left.at))
          const { value, u } = marginal(
            joint,
            sumOf(load, { terms: { [`gain of ${left.scale}`]: left.reading } }),
          )
          const own = left.u === undefined ? readingVariance(kitchenScale) : left.u ** 2
          const sd = Math.sqrt(u ** 2 + own + (left.extra?.u ?? 0) ** 2)
          const innovation = left.reading - (left.extra?.value ?? 0) - value
          expect(off / (innovation / sd)).toBeCloseTo(1, 5)
        }
        const told = ofReel.filter(({ kind }) =>
          ['weighed', 'carrier-weighed', 'measured', 'ran-dry'].includes(kind),
        )
        expect(used.length).toBeGreaterThanOrEqual(told.length)
      }
    },
  )

  it('lies as far off as the surprise says where the filament takes up water', () => {
    const facts = [opened(), weighed(1245), drew(60), weighed(1070), drew(40), weighed(965)]
    const estimate = estimateShelf(catalogue, facts)
    const { used } = shelfBelief(estimate, 'first', { scale: 'galley' })
    expect(used).toHaveLength(3)
    for (const { fact: id, off, weightOnNet } of used) {
      const left = facts.find((each) => each.id === id) as ReelWeighed
      const others = withoutFacts(estimate, [id!])
      expect(Math.abs(off - weighingSurprise(others, left).off)).toBeLessThan(0.02)
      expect(
        Math.abs(weightOnNet - (1 - (spreadOfNet(estimate) / spreadOfNet(others)) ** 2)),
      ).toBeLessThan(0.02)
    }
  })

  it('is told of every part of a fact, in words, with its id in the ledger', () => {
    const d = measured(millimetres(1.75), 0.01)
    const facts = [
      fact('opened', {
        reel: 'first',
        labelNet: grams(1000),
        grossWhenNew: { scale: 'galley', reading: grams(1240) },
      }),
      fact('measured', {
        reel: 'first',
        linearDensity: measured(gramsPerMetre(2.98), 0.02),
        density: measured(gramsPerCubicCentimetre(1.24), 0.01),
        calipers: { places: [[d, d]] },
        cutLength: {
          length: measured(millimetres(1000), 1),
          weighing: { scale: 'galley', reading: grams(3) },
        },
      }),
      weighed(1235),
      drew(20),
      weighed(1179),
    ]
    const { used } = believe(facts)
    expect(idsOf(used)).toEqual([
      'weighing_when_new',
      'linear_density',
      'density',
      'calipers',
      'cut_length',
      'weighing',
      'weighing_now',
    ])
    expect(used.map((each) => each.fact)).toEqual(
      [0, 1, 1, 1, 1, 2, 4].map((place) => facts[place]!.id),
    )
    expect(used.at(-1)!.what).toBe('the weighing of 1179 g')
    for (const each of used) {
      expect(each.u).toBeGreaterThan(0)
      expect(each.weightOnNet).toBeGreaterThanOrEqual(0)
      expect(each.weightOnNet).toBeLessThan(1)
    }
  })

  it('is only the last weighing when no more is asked for', () => {
    const facts = [opened(), weighed(1240), drew(10), weighed(1210), drew(1)]
    const { used } = believe(facts, { examine: 'last' })
    expect(used.map(({ id, fact: of }) => [id, of])).toEqual([['weighing', facts[3]!.id]])
    const all = believe(facts, {}).used
    expect(used[0]!.off).toBeCloseTo(all[1]!.off, 12)
  })

  it('takes facts of equal time in the order given', () => {
    const late = [weighed(1240), drew(100), weighed(940)].map((each) =>
      Object.assign(each, { at: 1e6 }),
    )
    const { used } = believe([opened(), ...late], {})
    for (const { surprising } of used) expect(surprising).toBe(false)
  })

  it('is surprising where one weighing is of another reel, and a notice says so', () => {
    const { used, notices } = believe([opened(), weighed(1240), drew(10), weighed(740), drew(1)])
    expect(used.some(({ surprising }) => surprising)).toBe(true)
    expect(notices[0]).toMatchObject({ code: 'surprising' })
    expect(notices[0]!.message).toContain('the weighing of 1240 g')
  })

  it('has a notice where more was fed than there was', () => {
    const codes = believe([opened(), drew(500)]).notices.map(({ code }) => code)
    expect(codes).toEqual(['net_may_be_nothing', 'net_below_nothing'])
  })
})

describe('what is assumed', () => {
  it('is everything, of a reel and a printer nobody has measured', () => {
    const { assumed } = believe([opened()])
    expect(idsOf(assumed)).toEqual([
      'tare',
      'overfill',
      'density',
      'diameter',
      'feed_factor',
      'start_allowance',
    ])
    expect(assumed[0]).toMatchObject({ what: 'tare of a plastic carrier', value: 235, unit: 'g' })
    expect(assumed[0]!.u).toBeCloseTo(45, 9)
    expect(assumed[2]!.what).toBe('density of PLA')
  })

  it('is not what a weighing of another reel’s carrier, of the make, has taught', () => {
    const own = { make: 'quay', reel: 'second', scale: 'galley', reading: grams(238) }
    expect(idsOf(believe([opened(), fact('carrier-weighed', own)]).assumed)).not.toContain('tare')
  })

  it('is not density and diameter once a length was weighed', () => {
    const linearDensity = measured(gramsPerMetre(2.98), 0.01)
    const { assumed } = believe([opened(), fact('measured', { reel: 'first', linearDensity })])
    expect(idsOf(assumed)).not.toContain('density')
    expect(idsOf(assumed)).not.toContain('diameter')
  })

  it('is the diameter alone once the density was measured', () => {
    const density = measured(gramsPerCubicCentimetre(1.24), 0.001)
    const ids = idsOf(believe([opened(), fact('measured', { reel: 'first', density })]).assumed)
    expect(ids).not.toContain('density')
    expect(ids).toContain('diameter')
  })

  it('is not what the catalogue states of a printer, nor what prints have taught', () => {
    const stated = believe([opened()], { printer: 'tern' })
    expect(idsOf(stated.assumed)).not.toContain('feed_factor')
    const linearDensity = measured(gramsPerMetre(2.98), 0.005)
    const taught = [
      opened(),
      fact('measured', { reel: 'first', linearDensity }),
      weighed(1240),
      drew(200),
      weighed(644),
    ]
    expect(idsOf(believe(taught).assumed)).not.toContain('feed_factor')
  })

  it('is the opening where neither label nor scale tells it', () => {
    const ids = idsOf(believe([fact('opened', { reel: 'first' })]).assumed)
    expect(ids).toContain('opening')
    expect(idsOf(believe([opened(), weighed(1240)]).assumed)).not.toContain('overfill')
  })
})

describe('a belief of the past', () => {
  it('has the net as it was', () => {
    const facts = [opened(), weighed(1240), drew(100), weighed(944)]
    const then = believe(facts, { at: facts[1]!.at })
    const now = believe(facts, {})
    expect(marginal(then.joint, then.net).value).toBeGreaterThan(990)
    expect(marginal(now.joint, now.net).value).toBeLessThan(720)
  })

  it('does not mind a fact taken out again', () => {
    const facts = [opened(), weighed(1240)]
    const more = drew(40)
    const estimate = estimateShelf(catalogue, facts)
    const back = withoutFacts(withFacts(estimate, [more]), [more.id])
    expect(shelfBelief(back, 'first')).toEqual(shelfBelief(estimate, 'first'))
  })
})
