import { expect, it, test } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { explainChoice, type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { bestOfEveryPlan } from './every-plan.ts'
import { keepsLocks, lockedSlate } from './locked-slate.ts'
import { randomSlate } from './random-slate.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

it.each(Array.from({ length: 25 }, (_, i) => i + 1))(
  'slate %i with locks: of the plans that take every reel locked none is better',
  async (seed) => {
    const asked = randomSlate(new SeededRandom(seed))
    const { locks = [], ...slate } = lockedSlate(asked, new SeededRandom(1000 + seed))
    const plan = await matchSlate({ ...slate, locks }, { solver: highsSolver() })
    const best = bestOfEveryPlan(slate, { isKept: keepsLocks(locks) })
    for (const [i, { value }] of plan.levels.entries()) expect(value).toBeCloseTo(best.value[i]!, 2)
    expect(plan.proven).toBe(true)
  },
)

const crate = (more: Partial<MatchSlate> = {}, most = 1): MatchSlate =>
  slateOf(
    [
      copyOf('crate', 200, ['r', 's', 't'], {
        tasks: [{ tool: 0, draw: [layered(200, 10)], fits: ['r', 's', 't'] }],
        changes: { most },
      }),
    ],
    [reelOf('r', 130), reelOf('s', 130), reelOf('t', 90)],
    more,
  )

const reelsOf = async (slate: MatchSlate): Promise<readonly string[]> => {
  const { served } = await matchSlate(slate)
  return served.flatMap(({ duties }) => duties.map(({ reel }) => reel))
}

const lock = (...reels: readonly string[]) => ({
  locks: reels.map((reel) => ({ copy: 'crate', tool: 0, reel })),
})

test('a lock on a print that is changed keeps that reel as a part of it', async () => {
  expect(await reelsOf(crate(lock('t')))).toContain('t')
  expect((await reelsOf(crate(lock('s', 'r')))).toSorted()).toEqual(['r', 's'])
  expect(new Set(await reelsOf(crate(lock('r', 't'), 2)))).toContain('t')
})

test('of a part that was locked that is told, and of the other why it is there', async () => {
  const slate = crate(lock('t'))
  const plan = await matchSlate(slate)
  const why = explainChoice(slate, plan)
  const kinds = plan.served[0]!.duties.map((duty) => [duty.reel, why(duty).kind])
  expect(Object.fromEntries(kinds)['t']).toBe('locked')
  expect(kinds.map(([, kind]) => kind)).not.toEqual(['locked', 'locked'])
})

test('more locks than a print has room for contradict each other', async () => {
  const one = slateOf([copyOf('crate', 20, ['r', 's'])], [reelOf('r', 130), reelOf('s', 130)])
  await expect(matchSlate({ ...one, ...lock('r', 's') })).rejects.toThrow('locked to 2 reels')
  await expect(matchSlate(crate(lock('r', 's', 't')))).rejects.toThrow('room for 2')
})
