import { expect, test } from 'vitest'
import type { RunningRowJson } from '../../src/contract/index.ts'
import { readingOfRow } from '../../src/ledger/index.ts'
import { addRow, checkOverShelf, recordDraw, shelfView, twoReels } from '../../src/service/index.ts'
import { drawOfReading } from '../../src/verdict/index.ts'
import { addKittiwake, bench, smallPrint, valueOf } from '../shelf-bench.ts'

/** A shelf with two reels that hold about 970 g each. */
const shelfOf = async (colours: readonly [string, string]) => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const [one] = (await addKittiwake(handed, { colour: { name: colours[0] } })).reels
  const [other] = (await addKittiwake(handed, { colour: { name: colours[1] } })).reels
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: one! }] }))
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: other! }] }))
  return valueOf(await shelfView(handed.store))
}

/** A print of three layers that takes `metres` of them. */
const asked = async (metres: number, colours: readonly [string, string]) => {
  const view = await shelfOf(colours)
  const { families, layers } = readingOfRow(smallPrint())
  const times = (metres * 1000) / 300
  const draw = drawOfReading({ families }, 0).map(({ layerEnd_mm, peak_mm, weight }) => ({
    weight,
    peak_mm: peak_mm * times,
    layerEnd_mm: layerEnd_mm!.map((each) => each * times),
  }))
  return twoReels(view, { draw, layers, confidence: 0.95, cards: [...view.cards.values()] })
}

test('two reels of one colour follow each other after the last layer that is safe', async () => {
  const two = await asked(400, ['red', 'red'])
  expect(two).not.toBe(null)
  expect([1, 2]).toContain(two?.afterLayer)
  expect(two?.height_mm).toBeCloseTo(0.2 * (two?.afterLayer ?? 0), 9)
  expect(two?.first.id).not.toBe(two?.second.id)
})

test('reels of two colours do not', async () => {
  expect(await asked(400, ['red', 'blue'])).toBe(null)
})

test('nor do two that are too little together', async () => {
  expect(await asked(900, ['red', 'red'])).toBe(null)
})

test('the answer for programs names them, and no one where a single reel is enough', async () => {
  const view = await shelfOf(['red', 'red'])
  // Six moves of 66 m.
  const long = valueOf(checkOverShelf(view, { print: smallPrint([0], 66_000) }))
  expect(long.verdict).not.toBe('enough')
  const { first, second, after_layer, height_mm } = long.two_reels!
  expect(first.id).not.toBe(second.id)
  expect(height_mm).toBeCloseTo(0.2 * after_layer, 9)
  const brief = valueOf(checkOverShelf(view, { print: smallPrint([0], 66_000), most: 1 }))
  expect(brief.tools[0]?.reels).toHaveLength(1)
  expect(brief.two_reels).toEqual(long.two_reels)
  const after = valueOf(checkOverShelf(view, { print: smallPrint([0], 66_000), afterLayer: 1 }))
  expect(after.two_reels).toBe(null)
  const cut = valueOf(checkOverShelf(view, { print: smallPrint([0], 66_000), cutShort: true }))
  expect(cut.two_reels).toBe(null)
  expect(valueOf(checkOverShelf(view, { print: smallPrint() })).two_reels).toBe(null)
})

test('a reel that feeds a print which runs is none of the two', async () => {
  const view = await shelfOf(['red', 'red'])
  const print = smallPrint([0], 66_000)
  const { second } = valueOf(checkOverShelf(view, { print })).two_reels!
  const at = '2026-03-01T12:00:00.000Z'
  const running: RunningRowJson = {
    kind: 'running',
    id: '94Y7AQJ6D',
    changed_at: at,
    print: print.id,
    printer: view.rows.find(({ kind }) => kind === 'printer')!.id,
    started_at: at,
    recorded_at: at,
    reels: [{ tool: 0, reel: second.id }],
  }
  const busy = valueOf(checkOverShelf({ ...view, rows: [...view.rows, running] }, { print }))
  expect(busy.two_reels).toBe(null)
})

test('what a change takes on the printer is what the second has to give', async () => {
  const view = await shelfOf(['red', 'red'])
  const { families, layers } = readingOfRow(smallPrint([0], 66_000))
  const draw = drawOfReading({ families }, 0)
  const of = (change_mm: number) => {
    const rows = view.rows.map((row) =>
      row.kind === 'printer' ? { ...row, change_mm: { value: change_mm, u: 10 } } : row,
    )
    const printer = rows.find(({ kind }) => kind === 'printer')!.id
    const cards = [...view.cards.values()]
    return twoReels({ ...view, rows }, { draw, layers, printer, confidence: 0.95, cards })
  }
  expect(of(200)).not.toBe(null)
  // All that the second holds.
  expect(of(400_000)).toBe(null)
})
