import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { orderAtLeisure, orderOf } from '../../src/match/printer-order.ts'
import type { OrderItem } from '../../src/match/reels-on.ts'

/** Reel 1 is on the first tool, nothing on the others. */
const atFirst = [1, -1]
const item = (copy: number, reel: number, more: Partial<OrderItem> = {}): OrderItem => ({
  copy,
  printer: 0,
  duration_h: 1,
  due_h: Infinity,
  tools: [{ at: 0, reels: [reel] }],
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
    const { swaps, items } = orderOf(many([item(0, 0), item(1, 1), item(2, 0)]), atFirst, 0)
    expect(swaps).toBe(1)
    expect(items.slice(0, times).every(({ copy }) => copy % 3 === 1)).toBe(true)
  })

  it('is in time before it saves a swap', () => {
    const items = [item(0, 1, { due_h: 3 * times }), item(1, 0, { due_h: times }), item(2, 1)]
    const order = orderOf(many(items), atFirst, 0)
    expect(order.late).toBe(0)
    expect(order.swaps).toBe(2)
  })
})

it('takes what a change brought for what is on', () => {
  const changed = item(0, 1, { tools: [{ at: 0, reels: [1, 0] }] })
  const { items, swaps } = orderOf([item(1, 0), changed], atFirst, 0)
  expect({ swaps, copies: items.map(({ copy }) => copy) }).toEqual({ swaps: 0, copies: [0, 1] })
})

const onTool = (copy: number, at: number, due_h: number): OrderItem =>
  item(copy, 0, { tools: [{ at, reels: [0] }], due_h })

it('puts a reel on again that was on another tool meanwhile', () => {
  const items = [onTool(0, 0, 1), onTool(1, 1, 2), onTool(2, 0, 3)]
  expect(orderOf(items, atFirst, 0)).toMatchObject({ swaps: 3, isLeast: true })
  expect(orderAtLeisure(items, atFirst)).toMatchObject({ swaps: 2, isLeast: true })
})

const orders = <T>(list: readonly T[]): readonly (readonly T[])[] =>
  list.length === 0
    ? [[]]
    : list.flatMap((one, i) => orders(list.toSpliced(i, 1)).map((rest) => [one].concat(rest)))

/** Swaps along a sequence: where each reel is, one after the other. */
const swapsOf = (order: readonly OrderItem[], on: readonly number[]): number => {
  const where = new Map(on.flatMap((reel, at) => (reel < 0 ? [] : [[reel, at] as const])))
  let swaps = 0
  for (const { at, reels } of order.flatMap(({ tools }) => tools)) {
    swaps += Number(where.get(reels[0]!) !== at)
    for (const reel of reels) {
      for (const [other, there] of where) if (there === at) where.delete(other)
      where.set(reel, at)
    }
  }
  return swaps
}

/** @param places - tools, of one or more printers; a copy has up to two neighbouring ones */
const itemsOf = (random: SeededRandom, count: number, places: number): readonly OrderItem[] => {
  const reel = (): number => Math.floor(random.between(0, 4))
  return Array.from({ length: count }, (_, copy): OrderItem => {
    const first = 2 * Math.floor(random.between(0, places / 2))
    const tools =
      random.uniform() < 0.6 ? [first + Math.floor(random.between(0, 2))] : [first, first + 1]
    const taken: number[] = []
    const another = (): number => {
      const next = reel()
      if (taken.includes(next)) return another()
      taken.push(next)
      return next
    }
    return item(copy, 0, {
      printer: first,
      tools: tools.map((at) => ({
        at,
        reels: random.uniform() < 0.15 ? [another(), another()] : [another()],
      })),
    })
  })
}

describe.each([
  ['one printer', 2, atFirst],
  ['two printers', 4, [1, -1, 0, 2]],
])('copies of %s against every order there is', (_, places, on) => {
  it.each(Array.from({ length: 40 }, (__, i) => i + 1))('copies of seed %i', (seed) => {
    const items = itemsOf(new SeededRandom(seed), 6, places)
    const fewest = Math.min(...orders(items).map((order) => swapsOf(order, on)))
    const found = orderAtLeisure(items, on)
    expect(found).toMatchObject({ swaps: fewest, isLeast: true })
    expect(found.items).toHaveLength(items.length)
    expect(swapsOf(found.items, on)).toBe(fewest)
    // What keeps its reels is done again at once.
    const keeping = items.filter(({ tools }) => tools.every(({ reels }) => reels.length === 1))
    const again = keeping.map(({ tools, printer }, i) =>
      item(items.length + i, 0, { tools, printer }),
    )
    expect(orderAtLeisure([...items, ...again, ...again], on).swaps).toBe(fewest)
  })
})
