import { expect, test } from 'vitest'
import { estimateShelf, learnSpreads } from '../../src/estimate/index.ts'
import {
  type HandedIn,
  listPriors,
  type PriorListed,
  type ShelfView,
  setPrior,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

/** Eight empty carriers of a make that differ by some 20 g, where 4 g is the guess. */
const uneven = async (): Promise<HandedIn> => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 8 })
  const tares = [215, 262, 230, 251, 222, 268, 236, 244]
  for (const [place, reel] of reels.entries()) {
    const weighing = { reading_g: tares[place]! }
    // One after the other, as at a bench.
    // oxlint-disable-next-line no-await-in-loop
    valueOf(await weigh(handed, { reel, empty: true, weighing, accept: true }))
  }
  return handed
}

const viewOfBench = async ({ store }: HandedIn): Promise<ShelfView> =>
  valueOf(await shelfView(store))

const priorOf = async (handed: HandedIn, key: string): Promise<PriorListed | undefined> =>
  valueOf(await listPriors(handed)).find((each) => each.key === key)

test('the shelf is estimated with the spreads that it teaches', async () => {
  const { shelf, spreads, estimate } = await viewOfBench(await uneven())
  const { catalogue, facts, priors } = shelf
  const learnt = learnSpreads(estimateShelf(catalogue, facts, { priors }), { priors })
  expect(spreads.factors).toEqual(learnt.factors)
  expect(estimate.book.priors).toEqual(learnt.priors)
  expect(estimate.book.priors.carrierOfOneMake.u).toBeGreaterThan(3 * priors.carrierOfOneMake.u)
})

test('what a person set is what is scaled', async () => {
  const handed = await uneven()
  const usual = (await viewOfBench(handed)).estimate.book.priors.carrierOfOneMake.u
  valueOf(await setPrior(handed, 'carrierOfOneMake', { value: 0, u: 20 }))
  const { shelf, spreads, estimate } = await viewOfBench(handed)
  expect(shelf.priors.carrierOfOneMake.u).toBe(20)
  expect(estimate.book.priors.carrierOfOneMake.u).toBe(20 * spreads.factors.carrier)
  // With 20 g the guess is about right, and carriers are told to differ as much as before.
  expect(spreads.factors.carrier).toBeLessThan(1.5)
  expect(Math.abs(Math.log((20 * spreads.factors.carrier) / usual))).toBeLessThan(0.4)
})

test('priors tell what is learnt of each spread, and whether anything tells of it', async () => {
  const handed = await uneven()
  const { spreads, shelf, estimate } = await viewOfBench(handed)
  expect((await priorOf(handed, 'carrierOfOneMake'))?.learnt).toEqual({
    factor: spreads.factors.carrier,
    told: true,
  })
  expect((await priorOf(handed, 'startAllowance'))?.learnt).toMatchObject({ told: false })
  expect((await priorOf(handed, 'dryAir'))?.learnt).toBeUndefined()
  const feed = (await priorOf(handed, 'feedFactor'))?.learnt?.factor ?? 0
  expect(feed * shelf.priors.feedFactor.u).toBeCloseTo(estimate.book.priors.feedFactor.u, 12)
})
