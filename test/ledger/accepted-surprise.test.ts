import { expect, it } from 'vitest'
import type { FactJson } from '../../src/contract/index.ts'
import { estimateShelf, marginal, reelPosterior } from '../../src/estimate/index.ts'
import { shelfOf } from '../../src/ledger/index.ts'

const at = (hour: number): string => new Date(Date.UTC(2026, 2, 1, hour)).toISOString()
const make = {
  kind: 'make',
  id: 'M87MP',
  changed_at: at(1),
  maker: 'Tern & Daughters',
  name: 'Quay PLA',
  material: 'pla',
} as const
const scaleRow = {
  kind: 'scale',
  id: 'M8XB3',
  changed_at: at(1),
  name: 'letter scale',
  step_g: 1,
  repeatability_g: 0.5,
  gain: 0.001,
} as const
const common = (hour: number): { id: string; at: string; recorded_at: string; reel: string } => ({
  id: `fact ${hour}`,
  at: at(hour),
  recorded_at: at(hour),
  reel: '8ZEZZ',
})
const weighed = (hour: number, reading_g: number, off?: number): FactJson => ({
  kind: 'weighed',
  ...common(hour),
  weighing: { scale: scaleRow.id, reading_g },
  ...(off !== undefined && { accepted_off: off }),
})
const opened: FactJson = { kind: 'opened', ...common(2), make: make.id, part_used: true }
const grossOf = (facts: readonly FactJson[]): number => {
  const shelf = shelfOf([make, scaleRow], facts)
  const estimate = estimateShelf(shelf.catalogue, shelf.facts, { priors: shelf.priors })
  return marginal(reelPosterior(estimate, '8ZEZZ'), { terms: { tare: 1, net: 1 } }).value
}

it('an accepted surprise is where the reel stands, whatever was weighed before', () => {
  const before = grossOf([opened, weighed(3, 402)])
  expect(Math.abs(before - 402)).toBeLessThan(3)
  const after = grossOf([opened, weighed(3, 402), weighed(4, 820, 511.9)])
  expect(Math.abs(after - 820)).toBeLessThan(6)
})

it('so is a reel that ran dry though it was believed full', () => {
  const dry: FactJson = { kind: 'ran-dry', ...common(5), accepted_off: -40 }
  const shelf = shelfOf([make, scaleRow], [opened, weighed(3, 820), dry])
  const estimate = estimateShelf(shelf.catalogue, shelf.facts, { priors: shelf.priors })
  const { tare, net } = Object.fromEntries(
    (['tare', 'net'] as const).map((name) => [
      name,
      marginal(reelPosterior(estimate, '8ZEZZ'), { terms: { [name]: 1 } }).value,
    ]),
  ) as Record<'tare' | 'net', number>
  expect(Math.abs(net)).toBeLessThan(5)
  expect(Math.abs(tare - 250)).toBeLessThan(10)
})
