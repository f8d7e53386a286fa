import { describe, expect, it } from 'vitest'
import {
  defaultShelfPriors,
  estimateShelf,
  makePosterior,
  makePrior,
  marginal,
  reckonReel,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  shelfNames,
} from '../../src/estimate/index.ts'
import { kitchenScale, type Winding } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  millimetres,
} from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PETG' }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [
    { id: 'first', make: 'quay' },
    { id: 'second', make: 'quay' },
  ],
}
const opened: ShelfFact = {
  kind: 'opened',
  id: 'open',
  at: 0,
  reel: 'first',
  labelNet: grams(1000),
}
const weighed = (at: number, reading: number): ShelfFact => ({
  kind: 'weighed',
  id: `w${at}`,
  at,
  reel: 'first',
  scale: 'galley',
  reading: grams(reading),
})
const trimmed: ShelfFact = {
  kind: 'trimmed',
  id: 't',
  at: 1,
  reel: 'first',
  mass: measured(grams(340), 30),
}
const emptied: ShelfFact = { kind: 'emptied', id: 'e', at: 5, reel: 'first' }
const of = (estimate: ShelfEstimate, name: string, at?: number, reel = 'first'): Measured =>
  marginal(reelPosterior(estimate, reel, at === undefined ? {} : { at }), { terms: { [name]: 1 } })

const netFrom = (facts: ShelfFact[]): Measured =>
  of(estimateShelf(catalogue, facts), shelfNames.net)

describe('a reel that was emptied', () => {
  const before = estimateShelf(catalogue, [opened, trimmed, weighed(4, 900)])
  const after = estimateShelf(catalogue, [opened, trimmed, weighed(4, 900), emptied])

  it('holds exactly nothing', () => {
    expect(of(after, shelfNames.net)).toEqual({ value: 0, u: 0 })
  })

  it('tells nothing of what was on it', () => {
    expect(of(after, shelfNames.net, 4).value).toBeCloseTo(of(before, shelfNames.net).value, 9)
    expect(of(after, shelfNames.net, 4).u).toBeCloseTo(of(before, shelfNames.net).u, 9)
    expect(of(after, shelfNames.tare)).toEqual(of(before, shelfNames.tare))
  })

  it('shows its carrier on the scale, and so what it held before', () => {
    const facts = [opened, trimmed, weighed(4, 900), emptied, weighed(6, 243)]
    const estimate = estimateShelf(catalogue, facts)
    const alone = { kind: 'carrier-weighed', make: 'quay', scale: 'galley' } as const
    const seen: ShelfFact = { ...alone, id: 'c', at: 6, reel: 'first', reading: grams(243) }
    const other = estimateShelf(catalogue, [opened, trimmed, weighed(4, 900), seen])
    expect(of(estimate, shelfNames.tare).value).toBeCloseTo(of(other, shelfNames.tare).value, 9)
    expect(of(estimate, shelfNames.tare).u).toBeCloseTo(of(other, shelfNames.tare).u, 9)
    expect(of(estimate, shelfNames.net, 4).value).toBeCloseTo(657, 0)
    // Two readings of the same scale: their gain is shared.
    expect(of(estimate, shelfNames.net, 4).u).toBeLessThan(1.1)
    expect(of(estimate, shelfNames.tare, undefined, 'second').u).toBeLessThan(6)
  })
})

describe('the size of a winding', () => {
  const winding: Winding = {
    hub: measured(millimetres(80), 1),
    outer: measured(millimetres(150), 2),
    width: measured(millimetres(55), 1),
  }
  const size: ShelfFact = { kind: 'measured', id: 'm', at: 3, reel: 'first', winding }

  it('tells the net about as it does of a single reel', () => {
    const alone = reckonReel({ winding, material: 'PETG' })
    const single = alone.ok && marginal(alone.value.joint, alone.value.net)
    const unlabelled: ShelfFact = { kind: 'opened', id: 'open', at: 0, reel: 'first' }
    const net = of(estimateShelf(catalogue, [unlabelled, size]), shelfNames.net)
    expect(single).not.toBe(false)
    if (single === false) return
    // The prior of 1000 ± 3000 g weighs a three-thousandth; the reel's own density 0.5 %.
    expect(Math.abs(net.value - single.value)).toBeLessThan(0.05 * single.u)
    expect(Math.abs(net.u / single.u - 1)).toBeLessThan(0.05)
  })

  it('counts for little beside weighings', () => {
    const empty = { kind: 'carrier-weighed', make: 'quay', scale: 'galley' } as const
    const facts: ShelfFact[] = [
      opened,
      trimmed,
      { ...empty, id: 'c', at: 1, reel: 'first', reading: grams(240) },
      weighed(2, 900),
    ]
    expect(Math.abs(netFrom([...facts, size]).value - netFrom(facts).value)).toBeLessThan(0.1)
  })

  it.each([
    ['below its hub', { ...winding, outer: measured(millimetres(70), 1) }],
    [
      'without any doubt',
      {
        hub: measured(millimetres(80)),
        outer: measured(millimetres(80)),
        width: measured(millimetres(55)),
      },
    ],
  ])('is refused %s', (_, broken) => {
    const fact: ShelfFact = { kind: 'measured', id: 'm', at: 3, reel: 'first', winding: broken }
    expect(() => estimateShelf(catalogue, [opened, fact])).toThrow(
      expect.objectContaining({ code: 'impossible_fact' }),
    )
  })
})

describe('a material of one’s own', () => {
  const density = measured(gramsPerCubicCentimetre(1.1), 0.02)

  it('needs no entry in the table', () => {
    const own = { ...catalogue, makes: [{ id: 'quay', material: 'kelp', density }] }
    const { density: mean, linearDensity } = makePosterior(estimateShelf(own, []), 'quay')
    expect(mean.value).toBeCloseTo(1.1, 12)
    expect(mean.u).toBeCloseTo(0.02, 12)
    expect(linearDensity.value).toBeCloseTo(1.1 * (Math.PI / 4) * 1.75 ** 2, 12)
  })

  it('takes the spread of data sheets where none is given, and goes before the table', () => {
    const make = { id: 'quay', material: 'PLA', density: measured(density.value) }
    expect(makePrior(make, defaultShelfPriors).density).toEqual(
      measured(1.1, 1.1 * defaultShelfPriors.dataSheetOffset.u),
    )
  })

  it.each([0, -1, Number.NaN, Infinity])('is refused with a density of %d', (value) => {
    const make = { id: 'quay', density: measured(gramsPerCubicCentimetre(value), 0.1) }
    expect(() => makePrior(make, defaultShelfPriors)).toThrow(
      expect.objectContaining({ code: 'impossible_make' }),
    )
  })
})
