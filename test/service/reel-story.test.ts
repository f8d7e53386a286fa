import { expect, test } from 'vitest'
import { changeRow, reelStory, shelfView, weigh } from '../../src/service/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

test('as known at a moment: the facts as they were then, the catalogue as it is now', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { label_net_g: 1000 })
  const reel = reels[0]!
  const knownAt = new Date(handed.now()).toISOString()
  const grams = async (then?: string): Promise<number> => {
    const view = valueOf(await shelfView(handed.store))
    const { known } = valueOf(reelStory(view, reel, then === undefined ? {} : { knownAt: then }))
    return known!.linearDensity.value
  }
  const before = await grams()
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1290 } }))
  const view = valueOf(await shelfView(handed.store))
  const { card } = valueOf(reelStory(view, reel, { knownAt }))
  expect(card.facts.map(({ fact }) => fact.kind)).toEqual(['opened'])
  expect(await grams(knownAt)).toBeCloseTo(before, 12)
  // Of 2.85 mm now: nobody can say any more what it was then.
  valueOf(await changeRow(handed, 'make', 'Kittiwake PLA', { nominal_diameter_mm: 2.85 }))
  expect(await grams(knownAt)).toBeCloseTo(before * (2.85 / 1.75) ** 2, 1)
})
