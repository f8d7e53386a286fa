import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { compileSlate } from '../../src/match/compiled-slate.ts'
import { type OrderItem, orderOf } from '../../src/match/printer-order.ts'
import { exactPrinter, reelOf, slateOf } from './told-slate.ts'

const loaded = compileSlate(
  slateOf([], [reelOf('r', 1), reelOf('s', 1)], {
    printers: [exactPrinter('a', { loaded: { 0: 's' } })],
  }),
)
const item = (copy: number, reel: number, more: Partial<OrderItem> = {}): OrderItem => ({
  copy,
  duration_h: 1,
  due_h: Infinity,
  tools: [{ tool: 0, first: reel, last: reel }],
  ...more,
})

describe.each([
  ['few', 1],
  // More than every order is looked at for.
  ['many', 4],
])('%s copies', (_, times) => {
  const many = (items: readonly OrderItem[]): readonly OrderItem[] =>
    Array.from({ length: times }, (__, i) =>
      items.map((each) => ({ ...each, copy: each.copy + i * items.length })),
    ).flat()

  it('keeps what is on the printer on as long as it can', () => {
    const { swaps, copies } = orderOf(loaded, 0, many([item(0, 0), item(1, 1), item(2, 0)]))
    expect(swaps).toBe(1)
    expect(copies.slice(0, times).every((copy) => copy % 3 === 1)).toBe(true)
  })

  it('is in time before it saves a swap', () => {
    const items = [item(0, 1, { due_h: 3 * times }), item(1, 0, { due_h: times }), item(2, 1)]
    const order = orderOf(loaded, 0, many(items))
    expect(order.late).toBe(0)
    expect(order.swaps).toBe(2)
  })
})

it('takes what a change brought for what is on', () => {
  const changed = item(0, 1, { tools: [{ tool: 0, first: 1, last: 0 }] })
  expect(orderOf(loaded, 0, [item(1, 0), changed])).toMatchObject({ copies: [0, 1], swaps: 0 })
})

const orders = <T>(list: readonly T[]): readonly (readonly T[])[] =>
  list.length === 0
    ? [[]]
    : list.flatMap((one, i) => orders(list.toSpliced(i, 1)).map((rest) => [one].concat(rest)))

/** Swaps along an order on a printer with reel 1 on tool 0. */
const swapsOf = (order: readonly OrderItem[]): number => {
  const on = new Map([[0, 1]])
  let swaps = 0
  for (const { tool, first, last } of order.flatMap(({ tools }) => tools)) {
    swaps += Number(on.get(tool) !== first)
    on.set(tool, last)
  }
  return swaps
}

describe('against every order there is', () => {
  it.each(Array.from({ length: 40 }, (_, i) => i + 1))('copies of seed %i', (seed) => {
    const random = new SeededRandom(seed)
    const reel = (): number => Math.floor(random.between(0, 4))
    const items = Array.from({ length: 6 }, (_, copy): OrderItem => {
      const tools = random.uniform() < 0.6 ? [Math.floor(random.between(0, 2))] : [0, 1]
      return item(copy, 0, {
        tools: tools.map((tool) => {
          const first = reel()
          return { tool, first, last: random.uniform() < 0.15 ? reel() : first }
        }),
      })
    })
    const fewest = Math.min(...orders(items).map(swapsOf))
    const found = orderOf(loaded, 0, items)
    expect(found).toMatchObject({ swaps: fewest, isLeast: true })
    const order = found.copies.map((copy) => items[copy]!)
    expect(order).toHaveLength(items.length)
    expect(swapsOf(order)).toBe(fewest)
    // What keeps its reels is done again at once.
    const keeping = items.filter(({ tools }) => tools.every(({ first, last }) => first === last))
    const again = keeping.map(({ tools }, i) => item(items.length + i, 0, { tools }))
    expect(orderOf(loaded, 0, [...items, ...again, ...again]).swaps).toBe(fewest)
  })
})
