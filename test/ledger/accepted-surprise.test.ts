import { describe, expect, it } from 'vitest'
import type { FactJson } from '../../src/contract/index.ts'
import { estimateShelf, marginal, reelPosterior } from '../../src/estimate/index.ts'
import { shelfOf } from '../../src/ledger/index.ts'
import type { Measured } from '../../src/units/index.ts'

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
const printer = { kind: 'printer', id: 'K7RMY', changed_at: at(1), name: 'left' } as const
const opened: FactJson = { kind: 'opened', ...common(2), make: make.id, part_used: true }
const grossOf = (facts: readonly FactJson[]): number => {
  return believed(facts, { tare: 1, net: 1 }).value
}
const believed = (
  facts: readonly FactJson[],
  terms: Readonly<Record<string, number>>,
): Measured => {
  const shelf = shelfOf([make, scaleRow, printer], facts)
  const estimate = estimateShelf(shelf.catalogue, shelf.facts, { priors: shelf.priors })
  return marginal(reelPosterior(estimate, '8ZEZZ'), { terms })
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

describe.each<readonly [string, FactJson]>([
  [
    'a draw',
    { kind: 'drew', ...common(4), printer: printer.id, length_mm: 60_000, accepted_off: 9.1 },
  ],
  ['a piece', { kind: 'trimmed', ...common(4), mass_g: { value: 178, u: 1 }, accepted_off: 9.1 }],
])('more than the reel held, accepted: %s', (_, accepted) => {
  const { accepted_off: _off, ...unmarked } = { accepted_off: undefined, ...accepted }
  // A carrier that is known, and 100 g on it; then 178 g come off, and 120 g are still there.
  const carrier: FactJson = {
    kind: 'carrier-weighed',
    ...common(3),
    id: 'carrier',
    make: make.id,
    weighing: { scale: scaleRow.id, reading_g: 250 },
  }
  const before = [opened, carrier, weighed(3, 350)]
  const tare = { tare: 1 }
  const net = { net: 1 }

  it('until it is weighed it is believed to hold nothing more, as without the mark', () => {
    const { value, u } = believed([...before, accepted], net)
    expect(value).toBeLessThan(-60)
    expect(u).toBeLessThan(10)
    expect(believed([...before, unmarked], net)).toEqual({ value, u })
  })

  it('the next weighing stands for itself, and teaches nothing false of carrier and filament', () => {
    const { value, u } = believed([...before, accepted, weighed(5, 370)], net)
    expect(Math.abs(value - 120)).toBeLessThan(2 * u)
    const taught = (facts: readonly FactJson[], terms: Readonly<Record<string, number>>): number =>
      believed(facts, terms).value - believed(before, terms).value
    const perMetre = { linear_density: 1 }
    for (const terms of [tare, perMetre]) {
      expect(Math.abs(taught([...before, accepted, weighed(5, 370)], terms))).toBeLessThan(0.01)
    }
    const wrong = [...before, unmarked, weighed(5, 370)]
    expect(believed(wrong, net).value).toBeLessThan(value - 2 * u)
  })

  it('only the next one: after it the history counts again', () => {
    const { u } = believed([...before, accepted, weighed(5, 370), weighed(6, 371)], net)
    const alone = believed([...before, accepted, weighed(5, 370)], net)
    expect(u).toBeLessThan(alone.u)
    const far = believed([...before, accepted, weighed(5, 370), weighed(6, 400)], net)
    expect(Math.abs(far.value - 135)).toBeLessThan(2)
  })

  it('nor after the reel was emptied', () => {
    const emptied: FactJson = { kind: 'emptied', ...common(5) }
    const { value } = believed([...before, accepted, emptied, weighed(6, 250)], net)
    expect(value).toBeCloseTo(0, 9)
  })
})
