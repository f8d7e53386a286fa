import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { bestOfEveryPlan } from './every-plan.ts'
import { keepsLocks, lockedSlate } from './locked-slate.ts'
import { layeredSlate } from './random-slate.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

const solver = highsSolver()

it.each([100, 997])('finds the layer end of %i at which two reels do it', async (layers) => {
  // A hair more than half on one reel, a hair more than the rest on the other: one layer end does for each order.
  const middle = Math.ceil(layers / 2)
  const hair = 150 / layers / 10
  const reels = [
    reelOf('one', (150 * middle) / layers + hair),
    reelOf('two', (150 * (layers - middle)) / layers + hair),
  ]
  const crate = copyOf('crate', 150, [], {
    tasks: [{ tool: 0, draw: [layered(150, layers)], fits: ['two', 'one'] }],
    changes: {},
  })
  const plan = await matchSlate(slateOf([crate], reels), { solver })
  const [first, then] = plan.served[0]!.duties
  const end = first!.reel === 'one' ? middle : layers - middle
  expect(first!.untilLayer).toBe(end)
  expect(then).toMatchObject({ afterLayer: end, untilLayer: null })
  expect(plan.proven).toBe(true)
})

it('proves that no layer end does where what is missing is less than a layer', async () => {
  const reels = [reelOf('one', 74.9), reelOf('two', 74.9)]
  const crate = copyOf('crate', 150, [], {
    tasks: [{ tool: 0, draw: [layered(150, 400)], fits: ['one', 'two'] }],
    changes: {},
  })
  const plan = await matchSlate(slateOf([crate], reels), { solver })
  expect(plan.unserved.map(({ copy }) => copy)).toEqual(['crate'])
  expect(plan.proven).toBe(true)
})

const seeds = Array.from({ length: 20 }, (_, i) => i + 1)
const isBest = async ({ locks = [], ...slate }: MatchSlate): Promise<void> => {
  const plan = await matchSlate({ ...slate, locks }, { solver })
  const best = bestOfEveryPlan(slate, { isKept: keepsLocks(locks) })
  const stubs = plan.levels.findIndex(({ level }) => level === 'stubs')
  for (const [i, { value, bound }] of plan.levels.slice(0, stubs).entries()) {
    expect(value).toBe(best.value[i])
    expect(bound).toBe(value)
  }
  expect(plan.levels[stubs]!.bound).toBeLessThanOrEqual(best.value[stubs]! + 0.01)
  if (plan.proven) expect(plan.levels[stubs]!.value).toBeCloseTo(best.value[stubs]!, 2)
}

it.each(seeds)(
  'slate %i of prints of many layers: none is better of all layer ends, and no bound is too high',
  (seed) => isBest(layeredSlate(new SeededRandom(seed))),
)

it.each(seeds)('slate %i of them with locks, likewise', (seed) => {
  const random = new SeededRandom(100 + seed)
  return isBest(lockedSlate(layeredSlate(random), random))
})
