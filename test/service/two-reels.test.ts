import { expect, test } from 'vitest'
import { readingOfRow } from '../../src/ledger/index.ts'
import { addRow, recordDraw, shelfView, twoReels } from '../../src/service/index.ts'
import { drawOfReading } from '../../src/verdict/index.ts'
import { addKittiwake, bench, smallPrint, valueOf } from '../shelf-bench.ts'

/** Two reels that hold about 970 g each, and a print of three layers that takes `metres` of them. */
const asked = async (metres: number, colours: readonly [string, string]) => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const [one] = (await addKittiwake(handed, { colour: { name: colours[0] } })).reels
  const [other] = (await addKittiwake(handed, { colour: { name: colours[1] } })).reels
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: one! }] }))
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: other! }] }))
  const view = valueOf(await shelfView(handed.store))
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
