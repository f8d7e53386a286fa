import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { compileSlate } from '../../src/match/compiled-slate.ts'
import { firstPlan } from '../../src/match/first-plan.ts'
import { matchSlate } from '../../src/match/index.ts'
import { loadJudge } from '../../src/match/load-judge.ts'
import { comparePlans, planValue } from '../../src/match/plan-value.ts'
import { rebuiltPlan } from '../../src/match/rebuilt-plan.ts'
import { loadMaker } from '../../src/match/reel-load.ts'
import { randomSlate } from './random-slate.ts'
import { copyOf, reelOf, slateOf } from './told-slate.ts'

const both = { printers: ['a', 'b'] }

it('keeps a reel on one printer where its prints may go there, without a solver, too', async () => {
  const slate = slateOf(
    [copyOf('hook', 50, ['r'], { printers: ['b'] }), copyOf('cleat', 60, ['r'], both)],
    [reelOf('r', 300)],
  )
  const plan = await matchSlate(slate)
  expect(plan.orders.map(({ swaps }) => swaps)).toEqual([0, 1])
})

it.each([
  ['puts prints together where that makes nothing late', 1, ['b', 'b']],
  ['leaves them apart where one would be late', 2, ['b', 'a']],
])('%s', async (_, duration_h, printers) => {
  const due = { due_h: 2, duration_h }
  const slate = slateOf(
    [
      copyOf('hook', 50, ['r'], { ...due, printers: ['b'] }),
      copyOf('cleat', 60, ['r', 's'], { ...both, ...due }),
    ],
    [reelOf('r', 300), reelOf('s', 300)],
  )
  const plan = await matchSlate(slate)
  expect(plan.served.map(({ printer }) => printer)).toEqual(printers)
  expect(plan.levels.find(({ level }) => level === 'late')!.value).toBe(0)
})

it('puts prints together that were each on a reel of its own', async () => {
  const remnants = ['r', 's', 't', 'v']
  const slate = slateOf(
    [30, 31, 32, 33].map((grams) => copyOf(`hook of ${grams}`, grams, remnants)),
    remnants.map((id, i) => reelOf(id, [90, 90, 90, 200][i]!)),
  )
  const plan = await matchSlate(slate)
  expect(plan.orders[0]!.swaps).toBe(1)
  expect(plan.reels.find(({ reel }) => reel === 'v')!.duties).toHaveLength(4)
})

it.each([1, 2, 3, 4, 5, 6])('never makes slate %i worse, nor a load unsafe', (seed) => {
  const slate = compileSlate(randomSlate(new SeededRandom(seed)))
  const judges = slate.reels.map((_, reel) => loadJudge(slate, reel))
  const maker = loadMaker(slate, judges)
  const first = firstPlan(slate, maker)
  const copies = slate.copies.map(({ place }) => place)
  const rebuilt = rebuiltPlan(slate, maker, first, { copies, rounds: 40, isOver: () => false })
  // Swaps as the loads need them; an order may need one more.
  const [had, has] = [first, rebuilt].map((each) => planValue(slate, judges, each).slice(0, -1))
  expect(comparePlans(has!, had!)).toBeLessThanOrEqual(0)
  for (const [reel, judge] of judges.entries()) {
    const load = rebuilt.flatMap((choice) =>
      (choice?.servings ?? []).filter((each) => each.reel === reel).map(({ piece }) => piece),
    )
    expect(judge.isSafe(load)).toBe(true)
  }
})
