import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  defaultShelfPriors,
  estimateShelf,
  newReelWork,
  shelfBelief,
  workBelief,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'
import {
  chanceAt,
  leftOverAt,
  marginAt,
  marginModel,
  neededAt,
  unknownPrinter,
  workReckoner,
} from '../../src/verdict/index.ts'
import { toldBelief } from '../match/told-slate.ts'

const shelf = estimateShelf(
  {
    makes: [{ id: 'quay', material: 'petg' }],
    printers: [{ id: 'gull' }, { id: 'tern' }],
    scales: [{ id: 'galley', scale: kitchenScale }],
    reels: [{ id: 'one', make: 'quay' }],
  },
  [
    { kind: 'opened', id: 'f1', at: 1, reel: 'one', labelNet: grams(1000) },
    { kind: 'drew', id: 'f2', at: 2, reel: 'one', printer: 'gull', length: millimetres(2e5) },
    { kind: 'drew', id: 'f3', at: 3, reel: 'one', printer: 'tern', length: millimetres(5e4) },
  ],
)
const work = (printer: string, metres: number) => ({
  printer,
  length_mm: 1000 * metres,
  starts: true,
})

describe('one print', () => {
  it.each(['gull', 'tern'])('on %s has the margin that the verdict gives', (printer) => {
    const belief = shelfBelief(shelf, 'one', { printer })
    const before = marginModel(belief, unknownPrinter)
    const { model, draw_mm } = workReckoner(workBelief(shelf, 'one', ['gull', 'tern']))([
      work(printer, 60),
    ])
    expect(draw_mm).toBe(60_000)
    expect(chanceAt(model, draw_mm)).toBeCloseTo(chanceAt(before, 60_000), 9)
    for (const at of [marginAt, leftOverAt, neededAt]) {
      expect(at(model, draw_mm).value).toBeCloseTo(at(before, 60_000).value, 6)
      expect(at(model, draw_mm).u).toBeCloseTo(at(before, 60_000).u, 6)
    }
  })
})

describe('several prints', () => {
  const told = {
    linearDensity: measured(3, 0.03),
    feed: measured(1.01, 0.02),
    start: measured(200, 100),
    ownFeed: 0.015,
  }
  const reckon = workReckoner(toldBelief(measured(600, 12), ['gull', 'tern'], told), {
    gull: measured(millimetres(500), 100),
    tern: measured(millimetres(500), 100),
  })
  const parts = [work('gull', 40), work('gull', 50), work('tern', 45), work('gull', 30)]

  it('have the margin of so many worlds', () => {
    const random = new SeededRandom(5)
    const worlds = 200_000
    let sum = 0
    let squares = 0
    for (let i = 0; i < worlds; i++) {
      const feed = { gull: random.normal(1.01, 0.02), tern: random.normal(1.01, 0.02) }
      const start = { gull: random.normal(200, 100), tern: random.normal(200, 100) }
      let fed = random.normal(500, 100)
      for (const { printer, length_mm } of parts) {
        const on = printer as 'gull' | 'tern'
        fed += random.normal(feed[on], 0.015) * length_mm + start[on]
      }
      const margin = random.normal(600, 12) - (random.normal(3, 0.03) * fed) / 1000
      sum += margin
      squares += margin ** 2
    }
    const mean = sum / worlds
    const sd = Math.sqrt(squares / worlds - mean ** 2)
    const { model, draw_mm } = reckon(parts)
    const { value, u } = marginAt(model, draw_mm)
    // Standard errors are sd/√N and sd/√(2N).
    expect(Math.abs(value - mean)).toBeLessThan((4 * sd) / Math.sqrt(worlds))
    expect(Math.abs(u - sd)).toBeLessThan((4 * sd) / Math.sqrt(2 * worlds))
  })

  it('are surer than the sum of their spreads, and less sure than apart', () => {
    const spreads = parts.map((part) => {
      const { model, draw_mm } = reckon([part])
      return neededAt(model, draw_mm).u
    })
    const { model, draw_mm } = reckon(parts)
    const together = neededAt(model, draw_mm).u
    expect(together).toBeLessThan(spreads.reduce((sum, u) => sum + u, 0))
    expect(together).toBeGreaterThan(Math.hypot(...spreads))
  })

  it('refuse a printer nobody knows and a length below nothing', () => {
    expect(() => reckon([work('heron', 1)])).toThrow(/no printer heron/)
    expect(() => reckon([work('gull', -1)])).toThrow(/can not draw/)
  })
})

it('a new reel is what its make and its label say', () => {
  const { joint, net } = newReelWork(shelf, 'quay', grams(1000), ['gull'])
  const at = joint.names.indexOf(Object.keys(net.terms)[0]!)
  const { overfill, overfillOfOneMake } = defaultShelfPriors
  expect(joint.mean[at]).toBeCloseTo(1000 * overfill.value, 0)
  expect(Math.sqrt(joint.covariance[at * (joint.names.length + 1)]!)).toBeGreaterThan(
    1000 * overfillOfOneMake.u * 0.99,
  )
})
