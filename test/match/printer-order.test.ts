import { describe, expect, it } from 'vitest'
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
