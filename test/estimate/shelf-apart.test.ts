import { expect, it } from 'vitest'
import {
  estimateShelf,
  marginal,
  reelPosterior,
  reelsApart,
  type ShelfCatalogue,
  type ShelfFact,
  shelfBelief,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, millimetres } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PETG' }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [
    { id: 'wrong', make: 'quay' },
    { id: 'sister', make: 'quay' },
    { id: 'third', make: 'quay' },
  ],
}
const opened = (reel: string, at: number, gross: number): ShelfFact => ({
  kind: 'opened',
  id: `opened ${reel}`,
  at,
  reel,
  labelNet: grams(1000),
  grossWhenNew: { scale: 'galley', reading: grams(gross) },
})
const weighed = (reel: string, at: number, reading: number): ShelfFact => ({
  kind: 'weighed',
  id: `weighed ${reel} ${at}`,
  at,
  reel,
  scale: 'galley',
  reading: grams(reading),
})
const drew = (reel: string, at: number, metres: number): ShelfFact => ({
  kind: 'drew',
  id: `drew ${reel} ${at}`,
  at,
  reel,
  printer: 'gull',
  length: millimetres(1000 * metres),
})
const honest: readonly ShelfFact[] = [
  opened('sister', 1, 1242),
  opened('third', 2, 1246),
  drew('third', 3, 50),
  weighed('third', 4, 1093),
]
/** 80 m were fed, and 40 m are in the ledger. */
const wrong: readonly ShelfFact[] = [
  opened('wrong', 1, 1240),
  drew('wrong', 2, 40),
  weighed('wrong', 3, 996),
]
const perMetre = (facts: readonly ShelfFact[], reel: string, apart: boolean): number => {
  const estimate = estimateShelf(catalogue, facts)
  const joint = reelPosterior(apart ? reelsApart(estimate) : estimate, reel)
  return marginal(joint, { terms: { linear_density: 1 } }).value
}

it('a reel whose facts contradict each other does not bend the others', () => {
  const alone = perMetre(honest, 'sister', false)
  const all = [...honest, ...wrong]
  expect(Math.abs(perMetre(all, 'sister', false) - alone)).toBeGreaterThan(0.05)
  expect(Math.abs(perMetre(all, 'sister', true) - alone)).toBeLessThan(0.01)
})

it('only the worst is set apart where others look bad on its account', () => {
  const estimate = estimateShelf(catalogue, [...honest, ...wrong])
  expect([...reelsApart(estimate).apart]).toEqual([0])
})

it('nobody is set apart where all agree', () => {
  const estimate = estimateShelf(catalogue, honest)
  expect(reelsApart(estimate)).toBe(estimate)
})

it('the observations of a reel apart lie a sensible distance off the rest', () => {
  const estimate = reelsApart(estimateShelf(catalogue, [...honest, ...wrong]))
  const { used } = shelfBelief(estimate, 'wrong', { printer: 'gull' })
  const farthest = Math.max(...used.map(({ off }) => Math.abs(off)))
  expect(farthest).toBeGreaterThan(6)
  expect(farthest).toBeLessThan(1000)
})
