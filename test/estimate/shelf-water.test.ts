import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  type Air,
  type CarrierWeighed,
  defaultShelfPriors,
  estimateShelf,
  makePrior,
  marginal,
  type ReelOpened,
  type ReelWeighed,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type ShelfMake,
  shelfGrosses,
  shelfNames,
  weighingSurprise,
} from '../../src/estimate/index.ts'
import { kitchenScale, materials } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  millimetres,
} from '../../src/units/index.ts'

const priors = defaultShelfPriors
const shelfOf = (make: Omit<ShelfMake, 'id'>): ShelfCatalogue => ({
  makes: [{ id: 'quay', ...make }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [{ id: 'damp', make: 'quay' }],
})
const nylon = shelfOf({ material: 'PA6' })
const sealed = shelfOf({ material: 'PA6', hygroscopic: false })

const opened: ReelOpened = { kind: 'opened', id: 'o', at: 0, reel: 'damp', labelNet: grams(1000) }
const carrier: CarrierWeighed = {
  kind: 'carrier-weighed',
  id: 'c',
  at: 0,
  make: 'quay',
  reel: 'damp',
  scale: 'galley',
  reading: grams(240),
}
// Something was cut away, nobody knows how much.
const trimmed: ShelfFact = {
  kind: 'trimmed',
  id: 't',
  at: 0,
  reel: 'damp',
  mass: measured(grams(210), 60),
}
const weighed = (at: number, reading: number): ReelWeighed => ({
  kind: 'weighed',
  id: `w${at}`,
  at,
  reel: 'damp',
  scale: 'galley',
  reading: grams(reading),
})
const dried = (at: number, remaining?: Measured): ShelfFact => ({
  kind: 'dried',
  id: `d${at}`,
  at,
  reel: 'damp',
  ...(remaining && { remaining }),
})
const moved = (at: number, air: Air): ShelfFact => ({
  kind: 'moved',
  id: `m${at}`,
  at,
  reel: 'damp',
  air,
})
const of = (estimate: ShelfEstimate, name: string, at?: number): Measured =>
  marginal(reelPosterior(estimate, 'damp', { water: true, ...(at !== undefined && { at }) }), {
    terms: { [name]: 1 },
  })
const netOf = (catalogue: ShelfCatalogue, facts: readonly ShelfFact[]): Measured =>
  of(estimateShelf(catalogue, facts), shelfNames.net)
const waterOf = (facts: readonly ShelfFact[], at?: number): Measured =>
  of(estimateShelf(nylon, facts), shelfNames.water, at)

const { water } = makePrior(nylon.makes[0]!, priors)
const { atRest, whenNew, ofPartUsed, afterDrying, days } = water!

describe('water in a reel', () => {
  it('widens the net and lowers it: a part of the gross is water', () => {
    const facts = [opened, carrier, trimmed, weighed(60, 1040)]
    const damp = netOf(nylon, facts)
    const dry = netOf(sealed, facts)
    expect(dry.u).toBeLessThan(1.5)
    expect(damp.u).toBeGreaterThan(3 * dry.u)
    // 800 g on the carrier, and some three percent of what is dry in it.
    expect(dry.value - damp.value).toBeGreaterThan(15)
    expect(dry.value - damp.value).toBeLessThan(27)
  })

  it('is mostly gone after drying, which narrows the net', () => {
    const facts = [opened, carrier, trimmed]
    const damp = netOf(nylon, [...facts, weighed(60, 1040)])
    const after = netOf(nylon, [...facts, dried(60), weighed(60, 1040)])
    const told = netOf(nylon, [...facts, dried(60, measured(0.001, 0.0005)), weighed(60, 1040)])
    expect(after.u).toBeLessThan(damp.u / 2)
    expect(told.u).toBeLessThan(after.u)
    expect(after.value).toBeGreaterThan(damp.value + 10)
    expect(told.value).toBeCloseTo(800 / 1.001, 0)
  })

  it('is told by weighings before and after drying', () => {
    const facts = [opened, carrier, trimmed, weighed(59.9, 1040), dried(60), weighed(60, 1016)]
    const estimate = estimateShelf(nylon, facts)
    const before = of(estimate, shelfNames.water, 59.9)
    const net = of(estimate, shelfNames.net, 59.9)
    // 24 g of water went, and what is left after drying is what both have in doubt.
    expect(before.value * net.value).toBeGreaterThan(24)
    expect(Math.abs(before.value * net.value - 24 - afterDrying.value * net.value)).toBeLessThan(
      1.5,
    )
    expect(before.u).toBeLessThan(atRest.room.u / 2)
    expect(net.u).toBeLessThan(netOf(nylon, facts.slice(0, 4)).u / 2)
  })

  it('goes to what rests in the air around it, exactly at any two times', () => {
    expect(waterOf([opened], 0)).toEqual(whenNew)
    const left = Math.exp(-30 / days)
    const then = waterOf([opened], 30)
    const mean = atRest.room.value + (whenNew.value - atRest.room.value) * left
    expect(then.value).toBeCloseTo(mean, 12)
    const variance = (whenNew.u * left) ** 2 + atRest.room.u ** 2 * (1 - left ** 2)
    expect(then.u).toBeCloseTo(Math.sqrt(variance), 12)
    // A fact on the way that tells nothing changes nothing.
    const halfway = waterOf([opened, moved(11, 'room')], 30)
    expect(halfway.value).toBeCloseTo(then.value, 14)
    expect(halfway.u).toBeCloseTo(then.u, 14)
    expect(waterOf([opened], 1e6).value).toBeCloseTo(atRest.room.value, 12)
    expect(waterOf([opened], 1e6).u).toBeCloseTo(atRest.room.u, 12)
  })

  it('dries out slowly in dry air, and comes back in a room', () => {
    const facts = [opened, moved(100, 'dry'), moved(400, 'room')]
    const at = (time: number): number => waterOf(facts, time).value
    expect(at(100)).toBeGreaterThan(0.95 * atRest.room.value)
    expect(at(100 + days)).toBeLessThan(at(100))
    expect(at(100 + days)).toBeGreaterThan(atRest.dry.value)
    expect(at(399)).toBeCloseTo(atRest.dry.value, 6)
    expect(at(1000)).toBeCloseTo(atRest.room.value, 6)
    expect(waterOf(facts, 399).u).toBeCloseTo(atRest.dry.u, 6)
  })

  it('starts as that of a used reel where nobody saw it opened', () => {
    expect(waterOf([])).toEqual(ofPartUsed)
    expect(waterOf([weighed(3, 1000)], 3).u).toBeCloseTo(ofPartUsed.u, 3)
    const partUsed: ShelfFact = { kind: 'opened', id: 'o', at: 0, reel: 'damp', partUsed: true }
    expect(waterOf([partUsed])).toEqual(ofPartUsed)
  })

  it('is the water at the last fact unless a time is asked', () => {
    const facts = [opened, weighed(60, 1240)]
    expect(waterOf(facts)).toEqual(waterOf(facts, 60))
  })

  it('is expanded where the reel is, not where it was thought to be', () => {
    // Of a reel that nobody labelled a kilogram is expected, give or take three.
    const partUsed: ShelfFact = { kind: 'opened', id: 'o', at: 0, reel: 'damp', partUsed: true }
    const told = [partUsed, carrier, dried(1, measured(0.05, 0.01)), weighed(1, 440)]
    const { value } = netOf(nylon, told)
    const share = waterOf(told).value
    expect(value * (1 + share)).toBeCloseTo(200, 0)
    expect(value).toBeCloseTo(200 / 1.05, 0)
  })

  it('is in a piece that was cut off and weighed, and in what was trimmed by mass', () => {
    const damp = dried(1, measured(0.05, 0.001))
    const weighing = { scale: 'galley', reading: grams(30), u: 0.01 }
    const cut: ShelfFact = {
      kind: 'measured',
      id: 'cut',
      at: 1,
      reel: 'damp',
      cutLength: { length: measured(millimetres(10_000), 1), weighing },
    }
    const linear = (catalogue: ShelfCatalogue): number =>
      of(estimateShelf(catalogue, [opened, damp, cut]), shelfNames.linearDensity).value
    expect(linear(sealed) / linear(nylon)).toBeCloseTo(1.05, 2)

    const away: ShelfFact = {
      kind: 'trimmed',
      id: 'a',
      at: 1,
      reel: 'damp',
      mass: measured(grams(105)),
    }
    const went = netOf(nylon, [opened, damp]).value - netOf(nylon, [opened, damp, away]).value
    expect(went).toBeCloseTo(100, 6)
  })

  it('leaves what the feeder takes alone: it takes metres of dry filament', () => {
    const draw: ShelfFact = {
      kind: 'drew',
      id: 'x',
      at: 50,
      reel: 'damp',
      printer: 'gull',
      length: millimetres(100_000),
    }
    const facts = [opened, draw]
    expect(netOf(nylon, facts)).toEqual(netOf(sealed, facts))
  })
})

describe('a material that takes up next to nothing', () => {
  const facts = [opened, carrier, weighed(60, 1040), moved(61, 'dry'), dried(70), weighed(71, 1039)]

  it('is reckoned with as if there were no water', () => {
    const without = estimateShelf(shelfOf({ material: 'PP', hygroscopic: false }), facts)
    const estimate = estimateShelf(shelfOf({ material: 'PP' }), facts)
    expect(estimate.blocks).toEqual(without.blocks)
    expect(estimate.blocks[0]!.mean).toHaveLength(3)
    expect(of(estimate, shelfNames.water)).toEqual({ value: 0, u: 0 })
    expect(estimate.blocks).toEqual(
      estimateShelf(
        shelfOf({ material: 'PP' }),
        facts.filter(({ kind }) => kind !== 'dried' && kind !== 'moved'),
      ).blocks,
    )
  })

  it('is told by the table and one limit', () => {
    const damp = materials
      .filter(({ id: material }) => makePrior({ id: 'm', material }, priors).water)
      .map(({ id }) => id)
    expect(damp).toEqual(
      expect.arrayContaining([
        'pla',
        'petg',
        'pet',
        'abs',
        'asa',
        'pc',
        'pom',
        'peek',
        'pa6',
        'pa66',
        'pa12',
        'tpu',
        'pva',
        'pvb',
        'pei',
        'pa-cf',
      ]),
    )
    for (const id of ['pp', 'hips']) {
      expect(damp).not.toContain(id)
    }
  })
})

const room = (make: Omit<ShelfMake, 'id'>): Measured | undefined =>
  makePrior({ id: 'm', ...make }, priors).water?.atRest.room

describe('the water of a make', () => {
  it('is the table’s at half humidity, as far as rooms are', () => {
    expect(room({ material: 'PA6' })!.value).toBeCloseTo(0.03, 12)
    expect(room({ material: 'PA6' })!.u).toBeCloseTo(0.009, 12)
  })

  it('is a share of saturation where the table has no better, which its own pairs bear out', () => {
    expect(room({ material: 'PEI' })!.value).toBeCloseTo(0.36 * 0.0125, 12)
    const shares = materials.flatMap(({ waterUptake }) => {
      const mid = (condition: string): number | undefined => {
        const found = waterUptake.find((figure) => figure.condition === condition)
        return found && (found.share[0] + found.share[1]) / 2
      }
      const [rest, soaked] = [mid('at rest in air of 50 % humidity'), mid('saturated in water')]
      return rest && soaked ? [rest / soaked] : []
    })
    const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length
    const squares = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0)
    expect(mean).toBeCloseTo(priors.restOfSaturation.value, 2)
    expect(Math.sqrt(squares / (shares.length - 1))).toBeCloseTo(priors.restOfSaturation.u, 2)
  })

  it('is the make’s own where given, entry in the table or not', () => {
    const density = measured(gramsPerCubicCentimetre(1.1), 0.02)
    const own = { material: 'kelp', density }
    expect(room(own)).toBeUndefined()
    expect(room({ ...own, hygroscopic: true })).toBe(priors.waterWithoutFigure)
    expect(room({ ...own, waterAtRest: measured(0.02, 0.004) })).toEqual(measured(0.02, 0.004))
    expect(room({ ...own, waterAtRest: measured(0.02) })!.u).toBeCloseTo(0.006, 12)
    expect(room({ ...own, waterAtRest: measured(0) })).toBeUndefined()
    expect(room({ material: 'PP', hygroscopic: true })!.value).toBeLessThan(priors.leastWater.value)
    expect(room({ material: 'PA6', hygroscopic: false })).toBeUndefined()
  })

  it.each([-0.01, 1, Number.NaN])('is refused at %d', (share) => {
    expect(() => room({ waterAtRest: measured(share, 0.1) })).toThrow(
      expect.objectContaining({ code: 'impossible_make' }),
    )
  })

  it.each([-0.01, Number.NaN, Infinity])('is refused after drying at %d', (share) => {
    for (const catalogue of [nylon, shelfOf({ material: 'PP' })]) {
      const facts = [opened, dried(1, measured(share, 0.1))]
      expect(() => estimateShelf(catalogue, facts)).toThrow(
        expect.objectContaining({ code: 'impossible_fact' }),
      )
    }
  })
})

describe('a weighing of a reel with water in it', () => {
  const facts = [opened, carrier, weighed(0, 1245)]
  const estimate = estimateShelf(nylon, facts)

  it('is predicted with what it has taken up since', () => {
    const { predicted, surprising } = weighingSurprise(estimate, weighed(60, 1268))
    const joint = reelPosterior(estimate, 'damp', { at: 60, water: true, scale: 'galley' })
    const mean = (name: string): number => marginal(joint, { terms: { [name]: 1 } }).value
    const gross = mean(shelfNames.tare) + mean(shelfNames.net) * (1 + mean(shelfNames.water))
    expect(predicted.value).toBeCloseTo(gross * (1 + mean(shelfNames.gain)), 9)
    expect(surprising).toBe(false)
    expect(weighingSurprise(estimate, weighed(0.01, 1268)).surprising).toBe(true)
    expect(weighingSurprise(estimateShelf(sealed, facts), weighed(60, 1268)).surprising).toBe(true)
  })

  it('is given for all reels in one go as it is for one', () => {
    const { value, u } = shelfGrosses(estimate)
    const joint = reelPosterior(estimate, 'damp', { water: true })
    const net = marginal(joint, { terms: { net: 1 } }).value
    const share = marginal(joint, { terms: { water: 1 } }).value
    const terms = { tare: 1, net: 1 + share, water: net }
    const gross = marginal(joint, { terms, constant: -net * share })
    expect(value[0]).toBeCloseTo(gross.value, 9)
    expect(u[0]! / gross.u).toBeCloseTo(1, 9)
  })

  it('finds another damp reel by what that has taken up', () => {
    const reels = [
      { id: 'damp', make: 'quay' },
      { id: 'other', make: 'quay' },
    ]
    const other: ShelfFact[] = [
      { ...opened, id: 'o2', reel: 'other' },
      { ...carrier, id: 'c2', reel: 'other' },
      { kind: 'trimmed', id: 't2', at: 0, reel: 'other', mass: measured(grams(150), 5) },
      { ...weighed(0, 1095), id: 'w2', reel: 'other' },
    ]
    const both = estimateShelf({ ...nylon, reels }, [...facts, ...other])
    const { causes } = weighingSurprise(both, weighed(80, 1122))
    expect(causes[0]).toMatchObject({ code: 'other_reel', reel: 'other' })
  })
})

describe('damp reels drawn from the priors', () => {
  it('hold what they are said to hold, as far as is said', () => {
    const random = new SeededRandom(5)
    const rest = measured(0.03, 0.009)
    const density = measured(gramsPerCubicCentimetre(1.14), 0.02)
    const catalogue = shelfOf({ density, waterAtRest: rest })
    const prior = makePrior(catalogue.makes[0]!, priors)
    const { atRest: air, ...known } = prior.water!
    const draw = ({ value, u }: Measured): number => random.normal(value, u)
    const shelves = 500
    let squares = 0
    let waters = 0
    let inside = 0
    for (let i = 0; i < shelves; i++) {
      const tare = draw(prior.tare) + random.normal(0, priors.carrierOfOneMake.u)
      let net = 1000 * (draw(prior.overfill) + random.normal(0, priors.overfillOfOneMake.u))
      const usual = prior.nominalArea * density.value
      const linear =
        draw(prior.density) * prior.nominalArea * (1 + random.normal(0, prior.areaSpread)) +
        usual * random.normal(0, priors.reelAboutMake.u)
      const phi = random.normal(1, Math.sqrt(0.015 ** 2 - 0.003 ** 2))
      const start = random.normal(50, Math.sqrt(80 ** 2 - 30 ** 2))
      const gain = random.normal(0, kitchenScale.gain)
      let share = draw(known.whenNew)
      let around = air.room
      let clock = 0
      const facts: ShelfFact[] = [opened]
      for (let step = 1; step < 14; step++) {
        const at = clock + random.between(0, 12)
        const left = Math.exp((clock - at) / days)
        share = around.value + (share - around.value) * left
        share += random.normal(0, around.u * Math.sqrt(1 - left ** 2))
        clock = at
        const fact = { id: `f${step}`, at, reel: 'damp' }
        const dice = random.uniform()
        if (dice < 0.4) {
          const load = tare + net * (1 + share)
          const reading = grams(Math.round(load * (1 + gain) + random.normal(0, 0.5)))
          facts.push({ ...fact, kind: 'weighed', scale: 'galley', reading })
        } else if (dice < 0.75) {
          const metres = random.between(2, 30)
          const length = millimetres(1000 * metres)
          facts.push({ ...fact, kind: 'drew', printer: 'gull', length })
          const begun = random.normal(start, 30) / 1000
          net -= linear * (metres * phi * (1 + random.normal(0, 0.003)) + begun)
        } else if (dice < 0.85) {
          facts.push({ ...fact, kind: 'dried' })
          share = draw(known.afterDrying)
        } else {
          const next = random.pick(['room', 'dry'] as const)
          facts.push({ ...fact, kind: 'moved', air: next })
          around = air[next]
        }
      }
      facts.push(moved(clock, 'room'))
      const estimate = estimateShelf(catalogue, facts)
      const seen = of(estimate, shelfNames.net)
      const told = of(estimate, shelfNames.water)
      const off = (net - seen.value) / seen.u
      squares += off ** 2
      waters += ((share - told.value) / told.u) ** 2
      inside += Number(Math.abs(off) < 1.96)
    }
    // Four standard deviations of each.
    expect(Math.abs(squares / shelves - 1)).toBeLessThan(4 * Math.sqrt(2 / shelves))
    expect(Math.abs(waters / shelves - 1)).toBeLessThan(4 * Math.sqrt(2 / shelves))
    expect(Math.abs(inside / shelves - 0.95)).toBeLessThan(4 * Math.sqrt(0.0475 / shelves))
  })
})
