import { describe, expect, test } from 'vitest'
import {
  believeReel,
  type HandedIn,
  listReels,
  reelStory,
  shelfView,
  type Weighed,
  weigh,
} from '../../src/service/index.ts'
import { grams } from '../../src/units/index.ts'
import { judge } from '../../src/verdict/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

const at = '2026-03-02T12:00:00.000Z'

interface Slipped {
  readonly handed: HandedIn
  readonly reel: string
  readonly others: readonly string[]
  readonly slip: string
}

/** 177 g too much on a carrier known to 60 g surprises nobody. */
const slipped = async (): Promise<Slipped> => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 20 })
  const [reel, ...others] = reels as [string, ...string[]]
  const { recorded, fact } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1420 } }))
  expect(recorded).toBeDefined()
  return { handed, reel, others, slip: fact.id }
}

/**
 * Every carrier of the make, and the other reels full: what should have been known. Of few reels one that
 * is off would only widen what overfill is learnt to be.
 */
const weighOthers = async ({
  handed,
  reel: first,
  others,
}: Slipped): Promise<readonly Weighed[]> => {
  const own = { reel: first, empty: true, weighing: { reading_g: 243 }, accept: true }
  const all: Weighed[] = [valueOf(await weigh(handed, own))]
  for (const [place, reel] of others.entries()) {
    for (const [empty, reading_g] of [
      [true, 240 + (place % 7)],
      [false, 1241 + (place % 7)],
    ] as const) {
      const weighing = { reading_g }
      // One after the other, as at a bench.
      // oxlint-disable-next-line no-await-in-loop
      all.push(valueOf(await weigh(handed, { reel, empty, weighing, accept: true })))
    }
  }
  return all
}

describe('a weighing that everything else contradicts', () => {
  test('is named by the weighing that brings it to light, and once only', async () => {
    const shelf = await slipped()
    const { reel, slip } = shelf
    const named = (await weighOthers(shelf)).flatMap(({ contradicted }) => contradicted)
    expect(named).toHaveLength(1)
    expect(named[0]).toMatchObject({ reel, fact: slip, reading_g: 1420, what: 'reel' })
    expect(named[0]!.off_g).toBeGreaterThan(60)
    expect(named[0]!.off).toBeGreaterThan(3)
  })

  test('is named of its reel and of no other', async () => {
    const shelf = await slipped()
    const { handed, reel, others, slip } = shelf
    const before = valueOf(await shelfView(handed.store))
    expect(valueOf(reelStory(before, reel, {})).known?.contradicted).toBeUndefined()
    await weighOthers(shelf)
    const view = valueOf(await shelfView(handed.store))
    expect(valueOf(reelStory(view, reel, {})).known?.contradicted?.fact).toBe(slip)
    for (const other of others) {
      expect(valueOf(reelStory(view, other, {})).known?.contradicted).toBeUndefined()
    }
    const listed = listReels(view, () => true, false)
    expect(listed.flatMap(({ contradicted }) => contradicted?.fact ?? [])).toEqual([slip])
    expect(listed.find(({ contradicted }) => contradicted)?.card.id).toBe(reel)
  })

  test('is said once: its surprise is no notice besides, and the call stays close', async () => {
    const shelf = await slipped()
    const { handed, reel, slip } = shelf
    await weighOthers(shelf)
    const view = valueOf(await shelfView(handed.store))
    const { belief, contradicted } = valueOf(believeReel(view, { reel, at }))
    expect(contradicted?.fact).toBe(slip)
    expect(belief.notices.filter(({ fact }) => fact === slip)).toEqual([])
    expect(judge({ belief, draw: [{ weight: 1, peak_mm: 10_000 }] }).verdict).toBe('close')
  })

  test('is none where a weighing told now is itself the farthest off', async () => {
    const handed = await bench()
    const { reels } = await addKittiwake(handed)
    const reel = reels[0]!
    for (const reading_g of [1262, 1262]) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other, as at a bench
      valueOf(await weigh(handed, { reel, weighing: { reading_g } }))
    }
    const view = valueOf(await shelfView(handed.store))
    const scale = view.shelf.catalogue.scales[0]!
    const weighing = { scale, reading: grams(1400) }
    const { contradicted, surprise } = valueOf(believeReel(view, { reel, at, weighing }))
    expect(surprise?.surprising).toBe(true)
    expect(contradicted).toBeUndefined()
  })
})
