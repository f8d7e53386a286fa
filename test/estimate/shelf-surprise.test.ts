import { describe, expect, it } from 'vitest'
import {
  condition,
  contradictions,
  defaultShelfPriors,
  estimateShelf,
  marginal,
  type ReelWeighed,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfFact,
  type ShelfPriors,
  weighingSurprise,
  withFacts,
  withoutFacts,
} from '../../src/estimate/index.ts'
import { kitchenScale, readingVariance } from '../../src/filament/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PETG', hygroscopic: false }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: ['grey', 'white', 'blue'].map((id) => ({ id, make: 'quay' })),
}
const weighed = (reel: string, at: number, reading: number): ReelWeighed => ({
  kind: 'weighed',
  id: `${reel} at ${at}`,
  at,
  reel,
  scale: 'galley',
  reading: grams(reading),
})
const facts: ShelfFact[] = [
  ...catalogue.reels.map(({ id: reel }, i): ShelfFact => {
    const label = { id: `open ${reel}`, at: i, labelNet: grams(1000) }
    return { kind: 'opened', reel, ...label, partUsed: true }
  }),
  { kind: 'carrier-weighed', id: 'e', at: 4, make: 'quay', scale: 'galley', reading: grams(240) },
  weighed('grey', 5, 740),
  weighed('white', 6, 1130),
  weighed('blue', 7, 410),
  { kind: 'drew', id: 'd', at: 8, reel: 'grey', printer: 'gull', length: millimetres(40_000) },
]
const shelf = estimateShelf(catalogue, facts)
const widely = <P extends { readonly u: number }>(of: P): P => ({ ...of, u: 3 * of.u })
/** A carrier's mass thrice as uncertain: that of its make and its own. */
const thrice: ShelfPriors = {
  ...defaultShelfPriors,
  unknownTare: defaultShelfPriors.unknownTare.map((of) => ({ ...of, tare: widely(of.tare) })),
  carrierOfOneMake: widely(defaultShelfPriors.carrierOfOneMake),
}
const judge = (reading: number) => weighingSurprise(shelf, weighed('grey', 9, reading))
const { value: usual, u } = judge(600).predicted

const drawn = (at: number, metres = 40, reel = 'grey'): ShelfFact => ({
  kind: 'drew',
  id: `${reel} ${metres} m at ${at}`,
  at,
  reel,
  printer: 'gull',
  length: millimetres(1000 * metres),
})

describe('a weighing against the rest', () => {
  it('is off by the innovation of conditioning, in its standard deviation', () => {
    const joint = reelPosterior(shelf, 'grey', { scale: 'galley' })
    const load = marginal(joint, { terms: { tare: 1, net: 1 } }).value
    const seen = condition(joint, {
      form: { terms: { tare: 1, net: 1, gain: load } },
      value: 680,
      variance: readingVariance(kitchenScale),
    })
    const { innovation, off, surprising } = judge(680)
    expect(innovation).toBeCloseTo(seen.innovation, 9)
    expect(off).toBeCloseTo(seen.innovation / seen.innovationSd, 9)
    expect(surprising).toBe(true)
  })

  it('needs no cause where it fits', () => {
    const { causes, surprising } = judge(Math.round(usual))
    expect(surprising).toBe(false)
    expect(causes[0]!.code).toBe('chance')
    expect(causes[0]!.weight).toBeGreaterThan(0.95)
  })

  it.each([
    ['another reel', 1130, { code: 'other_reel', reel: 'white' }],
    ['a third reel', 410, { code: 'other_reel', reel: 'blue' }],
    ['ounces', usual / 28.349523125, { code: 'ounces' }],
    ['pounds', usual / 453.59237, { code: 'pounds' }],
    ['kilograms', usual / 1000, { code: 'kilograms' }],
    ['the net', usual - 240, { code: 'tare_subtracted' }],
    ['the net less the tare', usual - 480, { code: 'tare_subtracted_twice' }],
    ['a print of 60 g not recorded', usual - 60, { code: 'print_not_recorded' }],
    ['a hub of 35 g left on', usual + 35, { code: 'adapter_left_on' }],
    ['what no usual slip explains', usual + 2000, { code: 'anything_else' }],
  ])('tells %s', (_, reading, cause) => {
    const found = judge(Number(reading.toFixed(2)))
    expect(found.surprising).toBe(true)
    expect(found.causes[0]).toMatchObject(cause)
    expect(found.causes[0]!.weight).toBeGreaterThan(0.5)
  })

  it('tells a print that stands twice, and what it took', () => {
    const twice = withFacts(shelf, [drawn(8.5)])
    const { predicted } = weighingSurprise(twice, weighed('grey', 9, 600))
    const { causes, unrecorded } = weighingSurprise(twice, weighed('grey', 9, Math.round(usual)))
    expect(causes[0]).toMatchObject({ code: 'print_recorded_twice', fact: 'grey 40 m at 8.5' })
    expect(causes[0]!.weight).toBeGreaterThan(0.9)
    expect(causes[0]!.mass!.value).toBeCloseTo(usual - predicted.value, 0)
    expect(unrecorded).toBe(true)
    // Half of it too much is something else.
    const half = (usual + predicted.value) / 2
    const other = weighingSurprise(twice, weighed('grey', 9, Math.round(half)))
    expect(other.causes[0]!.code).toBe('adapter_left_on')
  })

  it('tells what was told to be beside it and was not on the scale, and only then', () => {
    const beside = { ...weighed('grey', 9, Math.round(usual)), extra: measured(grams(38), 0.5) }
    const { causes, off } = weighingSurprise(shelf, beside)
    expect(off).toBeLessThan(-3)
    expect(causes[0]).toMatchObject({ code: 'extra_not_there', mass: { value: 38 } })
    expect(causes[0]!.weight).toBeGreaterThan(0.5)
    const there = { ...beside, reading: grams(Math.round(usual) + 38) }
    expect(weighingSurprise(shelf, there).causes[0]!.code).toBe('chance')
    const codes = judge(usual - 38).causes.map(({ code }) => code)
    expect(codes).not.toContain('extra_not_there')
    // 0 g beside it is nothing beside it.
    const nothing = { ...weighed('grey', 9, usual - 38), extra: measured(grams(0), 0) }
    expect(weighingSurprise(shelf, nothing)).toEqual(judge(usual - 38))
  })

  it.each([
    ['another length', [drawn(8.5, 41)]],
    ['another reel', [drawn(8.5, 40, 'white')]],
    ['before the last weighing', [drawn(8.5), weighed('grey', 8.7, 500)]],
    ['after it', [drawn(9.5)]],
  ])('draws are not the same: %s', (_, more) => {
    const { causes } = weighingSurprise(withFacts(shelf, more), weighed('grey', 9, 640), {
      most: 100,
    })
    expect(causes.map(({ code }) => code)).not.toContain('print_recorded_twice')
  })

  it('says how much is missing or too much', () => {
    const missing = judge(usual - 60).causes.find(({ code }) => code === 'print_not_recorded')
    expect(missing!.mass!.value).toBeCloseTo(60, 9)
    expect(missing!.mass!.u).toBe(u)
    const extra = judge(usual + 35).causes.find(({ code }) => code === 'adapter_left_on')
    expect(extra!.mass!.value).toBeCloseTo(35, 9)
  })

  it('of a reel that is nearly empty as much may be missing as it held at best', () => {
    const before = facts.filter(({ at }) => at < 5)
    const empty = estimateShelf(catalogue, [...before, weighed('grey', 9, 252)])
    const net = marginal(reelPosterior(empty, 'grey'), { terms: { net: 1 } })
    const of = (missing: number) => weighingSurprise(empty, weighed('grey', 10, 252 - missing))
    const most = Math.round(net.value + 1.5 * net.u)
    expect(most).toBeGreaterThan(net.value + 4)
    expect(of(most).surprising).toBe(true)
    expect(of(most).causes[0]!.code).toBe('print_not_recorded')
    const beyond = of(most + 40).causes.find(({ code }) => code === 'print_not_recorded')
    expect(beyond?.weight ?? 0).toBeLessThan(0.01)
  })

  it('weighs all causes to one, and names no more than asked', () => {
    const seen = weighed('grey', 9, 700)
    const all = weighingSurprise(shelf, seen, { most: 100 }).causes
    expect(all.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12)
    expect(weighingSurprise(shelf, seen, { most: 2 }).causes).toHaveLength(2)
  })

  it('tests a weighing of the past against what came before and after', () => {
    const wrong = weighed('grey', 4.5, 800)
    const estimate = withFacts(shelf, [wrong])
    const rest = withoutFacts(estimate, [wrong.id])
    const { predicted } = weighingSurprise(rest, wrong)
    expect(Math.abs(predicted.value - 740)).toBeLessThan(2)
    const before = reelPosterior(rest, 'grey', { at: 4.5, scale: 'galley' })
    const gross = marginal(before, { terms: { tare: 1, net: 1, gain: 740 } })
    expect(predicted.value).toBeCloseTo(gross.value, 2)
  })

  it('tells of something unrecorded where neither chance nor the carrier explains it', () => {
    expect(judge(usual).unrecorded).toBe(false)
    expect(judge(usual + 3.2 * u).unrecorded).toBe(false)
    for (const off of [-60, 60, 200]) expect(judge(usual + off).unrecorded).toBe(true)
  })

  it('refuses what is no number', () => {
    expect(() => judge(Number.NaN)).toThrow('can not hold')
  })
})

describe('a carrier of which nothing is known', () => {
  const opened: ShelfFact = {
    kind: 'opened',
    id: 'open',
    at: 0,
    reel: 'grey',
    labelNet: grams(1000),
  }
  const before = estimateShelf(catalogue, [opened])
  const heavy = weighed('grey', 1, 1480)

  it('may be of another kind than was guessed: then the reel holds what it held', () => {
    const { surprising, unrecorded, causes } = weighingSurprise(before, heavy)
    expect(surprising).toBe(true)
    expect(unrecorded).toBe(false)
    const carrier = causes.find(({ code }) => code === 'unusual_carrier')
    // 250 g guessed, and nearly all of what was too much.
    expect(carrier!.mass!.value).toBeGreaterThan(465)
    expect(carrier!.mass!.value).toBeLessThan(480)
    const net = (seen: ReelWeighed): number =>
      marginal(reelPosterior(withFacts(before, [seen]), 'grey'), { terms: { net: 1 } }).value
    expect(net(heavy)).toBeGreaterThan(980)
    expect(net(heavy)).toBeLessThan(1040)
    // Taken as something added, its net would be wrong by what the carrier is off.
    expect(net({ ...heavy, afterUnrecorded: true })).toBeGreaterThan(1200)
  })

  it('is no cause once a carrier of the make was weighed', () => {
    const empty = {
      kind: 'carrier-weighed',
      id: 'e',
      at: 0,
      make: 'quay',
      scale: 'galley',
    } as const
    const known = withFacts(before, [{ ...empty, reading: grams(240) }])
    const { unrecorded, causes } = weighingSurprise(known, heavy, { most: 100 })
    expect(causes.some(({ code }) => code === 'unusual_carrier')).toBe(false)
    expect(unrecorded).toBe(true)
  })

  it('is of another kind as if its mass had been thrice as uncertain from the start', () => {
    const wide = estimateShelf(catalogue, [opened], { priors: thrice, about: before.point })
    const { predicted } = weighingSurprise(wide, heavy)
    const { causes } = weighingSurprise(before, heavy, { most: 100 })
    const [carrier, anything] = ['unusual_carrier', 'anything_else'].map((of) =>
      causes.find(({ code }) => code === of),
    )
    const off = (heavy.reading - predicted.value) / predicted.u
    const density = Math.exp(-(off ** 2) / 2) / (predicted.u * Math.sqrt(2 * Math.PI))
    expect(carrier!.weight / anything!.weight / ((0.02 * density) / (0.001 / 10_000))).toBeCloseTo(
      1,
      6,
    )
    const after = condition(reelPosterior(wide, 'grey', { scale: 'galley' }), {
      form: { terms: { tare: 1, net: 1, gain: weighingSurprise(before, heavy).predicted.value } },
      value: heavy.reading,
      variance: readingVariance(kitchenScale),
    })
    const tare = marginal(after.joint, { terms: { tare: 1 } })
    expect(carrier!.mass!.value).toBeCloseTo(tare.value, 3)
    expect(carrier!.mass!.u).toBeCloseTo(tare.u, 3)
    expect(carrier!.mass!.u).toBeGreaterThan(5)
  })
})

describe('a reel weighed before, its carrier never', () => {
  const part: ShelfFact = {
    kind: 'opened',
    id: 'open',
    at: 0,
    reel: 'grey',
    labelNet: grams(1000),
    partUsed: true,
  }
  const alone = { ...catalogue, reels: [{ id: 'grey', make: 'quay' }] }
  const known = estimateShelf(alone, [part, weighed('grey', 1, 233), weighed('grey', 2, 231.8)])
  const light = weighed('grey', 3, 215)

  it.each([
    // 700 g of it filament, if the carrier is as guessed.
    ['17 g less were printed', [953, 951.8, 935], 'print_not_recorded'],
    // By the same guess nothing was left to take, but it may be 60 g off.
    ['17 g less of a nearly empty one were printed, too', [233, 231.8, 215], 'print_not_recorded'],
    ['17 g more are a hub', [233, 231.8, 250], 'adapter_left_on'],
  ] as const)('has the same carrier as then: %s', (_, [first, second, third], cause) => {
    const earlier = [part, weighed('grey', 1, first), weighed('grey', 2, second)]
    const twice = estimateShelf(alone, earlier)
    const seen = weighed('grey', 3, third)
    const { surprising, unrecorded, causes } = weighingSurprise(twice, seen, { most: 100 })
    expect(surprising).toBe(true)
    expect(unrecorded).toBe(true)
    expect(causes[0]!.code).toBe(cause)
    expect(causes[0]!.weight).toBeGreaterThan(0.5)
    // The carrier is still a guess, and yet it is no cause of this.
    const tare = marginal(reelPosterior(twice, 'grey'), { terms: { tare: 1 } })
    expect(2 * tare.u ** 2).toBeGreaterThan(60 ** 2)
    const carrier = causes.find(({ code }) => code === 'unusual_carrier')
    expect(carrier?.weight ?? 0).toBeLessThan(1e-6)
  })

  it('says of the carrier as much as is known, where the reading fits', () => {
    const fits = weighingSurprise(known, weighed('grey', 3, 232), { most: 100 })
    const wide = estimateShelf(
      alone,
      [part, weighed('grey', 1, 233), weighed('grey', 2, 231.8), weighed('grey', 3, 232)],
      { priors: thrice, about: known.point },
    )
    const tare = marginal(reelPosterior(wide, 'grey'), { terms: { tare: 1 } })
    const carrier = fits.causes.find(({ code }) => code === 'unusual_carrier')
    expect(carrier!.mass!.value / tare.value).toBeCloseTo(1, 2)
    expect(carrier!.mass!.u / tare.u).toBeCloseTo(1, 2)
  })

  it('contradicts the one that does not fit, once that is in the ledger', () => {
    const all = withFacts(known, [light])
    const found = contradictions(all, 'quay')
    expect(found.map(({ fact }) => fact.id)).toContain(light.id)
  })
})
