import { expect, it } from 'vitest'
import {
  estimateShelf,
  marginal,
  normalCdf,
  reelPosterior,
  type ShelfCatalogue,
  type ShelfFact,
  weighingSurprise,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, type Measured } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'mole', material: 'PETG', labelNet: grams(750) }],
  printers: [],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [{ id: 'orange', make: 'mole' }],
}
const opened: ShelfFact = { kind: 'opened', id: 'a', at: 1, reel: 'orange', partUsed: true }
const weighed = (reading: number): ShelfFact & { kind: 'weighed' } => ({
  kind: 'weighed',
  id: 'b',
  at: 2,
  reel: 'orange',
  scale: 'galley',
  reading: grams(reading),
})
const netOf = (facts: readonly ShelfFact[]): Measured =>
  marginal(reelPosterior(estimateShelf(catalogue, facts), 'orange'), { terms: { net: 1 } })

/** Chance that so much is left at least, of what is not below nothing. */
const leftWith = (mass: number, { value, u }: Measured): number =>
  normalCdf((value - mass) / u) / normalCdf(value / u)

it.each([0.01, 0.05, 0.1, 0.2, 0.35])(
  'a part-used reel that was never weighed holds %f of its label or more no surer than if anything were as likely',
  (share) => {
    const chance = leftWith(share * 750, netOf([opened]))
    expect(chance).toBeLessThan(1 - share)
    expect(chance).toBeGreaterThan(1 - 1.25 * share)
  },
)

it('and more than its label with a chance of 8 %', () => {
  expect(leftWith(750, netOf([opened]))).toBeCloseTo(0.08, 2)
})

it('its own label goes before that of its make', () => {
  const { value } = netOf([Object.assign({}, opened, { labelNet: grams(500) })])
  expect(value).toBeCloseTo((netOf([opened]).value * 500) / 750, 9)
})

it('once weighed, the reading tells and the label draws it nowhere', () => {
  const tare = marginal(reelPosterior(estimateShelf(catalogue, [opened]), 'orange'), {
    terms: { tare: 1 },
  })
  const { value, u } = netOf([opened, weighed(302)])
  expect(Math.abs(value - (302 - tare.value))).toBeLessThan(0.5)
  expect(u / tare.u).toBeCloseTo(1, 2)
})

it('a reading that no such reel can show is surprising', () => {
  const before = estimateShelf(catalogue, [opened])
  expect(weighingSurprise(before, weighed(500)).surprising).toBe(false)
  expect(weighingSurprise(before, weighed(1900)).surprising).toBe(true)
})

it('what it weighed when new tells its carrier, and of what is left no more than the label', () => {
  const whenNew = { grossWhenNew: { scale: 'galley', reading: grams(968) }, labelNet: grams(750) }
  const facts = [Object.assign({}, opened, whenNew)]
  const { value, u } = netOf(facts)
  expect(Math.abs(value - netOf([opened]).value)).toBeLessThan(15)
  expect(Math.abs(u / netOf([opened]).u - 1)).toBeLessThan(0.02)
  const after = netOf([...facts, weighed(518)])
  expect(Math.abs(after.value - 300)).toBeLessThan(15)
  expect(after.u).toBeLessThan(15)
})
