import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  defaultShelfPriors,
  estimateShelf,
  makePosterior,
  marginal,
  printerPosterior,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  scalePosterior,
  shelfNames,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerMetre,
  type Measured,
  measured,
  millimetres,
} from '../../src/units/index.ts'

const reels = ['first', 'second', 'third', 'fourth']
const catalogue: ShelfCatalogue = {
  makes: [
    { id: 'quay', material: 'PLA' },
    { id: 'mole', material: 'PETG' },
  ],
  printers: [{ id: 'gull' }, { id: 'tern' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [...reels.map((id) => ({ id, make: 'quay' })), { id: 'other', make: 'mole' }],
}
const opened = (reel: string, labelNet = grams(1000)): ShelfFact => {
  return { kind: 'opened', id: `open ${reel}`, at: 0, reel, labelNet }
}
const of = (estimate: ShelfEstimate, reel: string, name: string): Measured =>
  marginal(reelPosterior(estimate, reel), { terms: { [name]: 1 } })

const beside = (whole: number, part: number): number => Math.sqrt(whole ** 2 - part ** 2)

describe('what a shelf learns', () => {
  it('the tare of a fourth reel from three of its make weighed empty', () => {
    const empty = [236, 241, 239].map((reading, i): ShelfFact => {
      const scale = 'galley'
      const fact = { kind: 'carrier-weighed', id: `e${i}`, at: i, make: 'quay', scale } as const
      return Object.assign({}, fact, { reel: reels[i]!, reading: grams(reading) })
    })
    const before = of(estimateShelf(catalogue, []), 'fourth', shelfNames.tare)
    const estimate = estimateShelf(catalogue, empty)
    const after = of(estimate, 'fourth', shelfNames.tare)
    expect(before.u).toBeCloseTo(60, 9)
    // The mean of three carriers and the fourth's own spread, 4 g each: 4·√(1 + 1/3).
    expect(after.u).toBeGreaterThan(4.6)
    expect(after.u).toBeLessThan(4.7)
    expect(after.value).toBeCloseTo(238.7, 0)
    expect(of(estimate, 'other', shelfNames.tare).u).toBeCloseTo(60, 1)
    expect(makePosterior(estimate, 'quay').tare.u).toBeLessThan(2.5)
  })

  it('nothing of the tare from a label and the mass when new but what the overfill allows', () => {
    const grossWhenNew = { scale: 'galley', reading: grams(1243) }
    const estimate = estimateShelf(catalogue, [{ ...opened('first'), grossWhenNew } as ShelfFact])
    expect(of(estimate, 'first', shelfNames.tare).u).toBeGreaterThan(14)
    expect(of(estimate, 'first', shelfNames.tare).u).toBeLessThan(15.1)
  })

  it('the feed factor of a printer from weighings before and after prints', () => {
    const truth = 0.97
    const metres = 40
    const lambda = 2.98
    const facts: ShelfFact[] = [
      opened('first'),
      {
        kind: 'measured',
        id: 'm',
        at: 1,
        reel: 'first',
        linearDensity: measured(gramsPerMetre(lambda), 0.006),
      },
    ]
    let gross = 1240
    for (let i = 0; i < 7; i++) {
      const weighing = { scale: 'galley', reading: grams(Math.round(gross)) }
      facts.push({ kind: 'weighed', id: `w${i}`, at: 2 + 2 * i, reel: 'first', ...weighing })
      const draw = { printer: 'gull', length: millimetres(1000 * metres) }
      facts.push({ kind: 'drew', id: `d${i}`, at: 3 + 2 * i, reel: 'first', ...draw })
      gross -= lambda * (truth * metres + 0.05)
    }
    const none = estimateShelf(catalogue, facts.slice(0, 2))
    const estimate = estimateShelf(catalogue, facts)
    const { feedFactor } = printerPosterior(estimate, 'gull')
    expect(Math.abs(feedFactor.value - truth)).toBeLessThan(2 * feedFactor.u)
    expect(feedFactor.u).toBeLessThan(0.004)
    expect(printerPosterior(none, 'gull').feedFactor.u).toBeGreaterThan(0.0145)
    expect(printerPosterior(estimate, 'tern').feedFactor.value).toBe(1)
    expect(scalePosterior(estimate, 'galley').u).toBeLessThanOrEqual(0.001)

    // What the printer takes of a reel of another make is then known better.
    const print: ShelfFact[] = [
      opened('other'),
      { kind: 'drew', id: 'o', at: 90, reel: 'other', printer: 'gull', length: millimetres(2e5) },
    ]
    const vague = of(estimateShelf(catalogue, print), 'other', shelfNames.net)
    const sharp = of(estimateShelf(catalogue, [...facts, ...print]), 'other', shelfNames.net)
    expect(sharp.u).toBeLessThan(vague.u)
    expect(sharp.value).toBeGreaterThan(vague.value + 10)
  })

  it('that a reel ran dry settles its tare, which settles its make', () => {
    const facts: ShelfFact[] = [
      opened('first'),
      { kind: 'ran-dry', id: 'dry', at: 5, reel: 'first' },
      { kind: 'weighed', id: 'w', at: 6, reel: 'first', scale: 'galley', reading: grams(240) },
    ]
    const estimate = estimateShelf(catalogue, facts)
    expect(of(estimate, 'first', shelfNames.tare).u).toBeLessThan(1.5)
    expect(of(estimate, 'second', shelfNames.tare).u).toBeLessThan(6)
  })

  it('keeps errors of one history together: a weighing says how much the last one was off', () => {
    const draw = {
      kind: 'drew',
      reel: 'first',
      printer: 'gull',
      length: millimetres(150_000),
    } as const
    const facts: ShelfFact[] = [
      opened('first'),
      { id: 'd', at: 1, ...draw },
      { kind: 'weighed', id: 'w', at: 3, reel: 'first', scale: 'galley', reading: grams(780) },
    ]
    const estimate = estimateShelf(catalogue, facts)
    const earlier = reelPosterior(estimate, 'first', { at: 1 })
    const now = reelPosterior(estimate, 'first')
    const u = (joint: typeof now): number => marginal(joint, { terms: { net: 1 } }).u
    expect(u(earlier)).toBeCloseTo(u(now), 9)
    expect(u(earlier)).toBeLessThan(
      u(reelPosterior(estimateShelf(catalogue, facts.slice(0, 2)), 'first')),
    )
  })
})

describe('shelves drawn from the priors', () => {
  const priors = defaultShelfPriors
  const truly = (random: SeededRandom): { facts: ShelfFact[]; left: number[] } => {
    const area = (Math.PI / 4) * 1.75 ** 2
    const tare = random.normal(250, beside(60, 4))
    const overfill = random.normal(1.005, beside(0.015, 0.007))
    const density = random.normal(1.22, 0.08)
    const lambda = density * area * (1 + random.normal(0, beside(0.04 / 1.75, 0.01)))
    const phi = random.normal(1, beside(0.015, 0.003))
    const start = random.normal(50, beside(80, 30)) / 1000
    const gain = random.normal(0, 0.001)
    const show = (load: number): number => Math.round(load * (1 + gain) + random.normal(0, 0.5))
    const facts: ShelfFact[] = []
    const left = reels.map((reel) => {
      const own = tare + random.normal(0, 4)
      const its = lambda + area * 1.22 * random.normal(0, 0.01)
      let net = 1000 * (overfill + random.normal(0, 0.007))
      facts.push(opened(reel))
      for (let i = 1; i < 9; i++) {
        const fact = { id: `${reel} ${i}`, at: i, reel }
        if (random.uniform() < 0.4) {
          const reading = grams(show(own + net))
          facts.push({ ...fact, kind: 'weighed', scale: 'galley', reading })
        } else {
          const metres = random.between(2, 40)
          const length = millimetres(1000 * metres)
          facts.push({ ...fact, kind: 'drew', printer: 'gull', length })
          const fed = metres * phi * (1 + random.normal(0, priors.feedOfOneDraw.u))
          net -= its * (fed + start + random.normal(0, 0.03))
        }
      }
      return net
    })
    return { facts, left }
  }

  it('hold what they are said to hold, as far as is said', () => {
    const random = new SeededRandom(11)
    const unknown = {
      ...catalogue,
      makes: [{ id: 'quay' }],
      reels: reels.map((id) => ({ id, make: 'quay' })),
    }
    const shelves = 600
    const inside = { half: 0, most: 0 }
    let squares = 0
    for (let i = 0; i < shelves; i++) {
      const { facts, left } = truly(random)
      const estimate = estimateShelf(unknown, facts)
      // One reel of a shelf: its four are not independent.
      const place = i % reels.length
      const { value, u } = of(estimate, reels[place]!, shelfNames.net)
      const off = (left[place]! - value) / u
      squares += off ** 2
      inside.half += Number(Math.abs(off) < 0.6745)
      inside.most += Number(Math.abs(off) < 1.96)
    }
    // Four standard deviations of each count: √(2/n), √(¼/n), √(0.95·0.05/n).
    expect(Math.abs(squares / shelves - 1)).toBeLessThan(4 * Math.sqrt(2 / shelves))
    expect(Math.abs(inside.half / shelves - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / shelves))
    expect(Math.abs(inside.most / shelves - 0.95)).toBeLessThan(4 * Math.sqrt(0.0475 / shelves))
  })
})
