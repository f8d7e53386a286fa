import { expect, it, test } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  explainChoice,
  type MatchLock,
  type MatchSlate,
  matchSlate,
} from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { bestOfEveryPlan } from './every-plan.ts'
import { randomSlate } from './random-slate.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

/** A random slate that is locked here and there, as far as there is room for it. */
const lockedSlate = (seed: number): MatchSlate => {
  const slate = randomSlate(new SeededRandom(seed))
  const random = new SeededRandom(1000 + seed)
  const locks = slate.copies.flatMap(({ id, tasks, changes }): readonly MatchLock[] =>
    tasks.flatMap(({ tool, fits }) => {
      const room = changes ? (changes.most ?? 1) + 1 : 1
      const some = random.uniform() < 0.5 ? fits.slice(0, 1 + Math.floor(2 * random.uniform())) : []
      return some.slice(0, room).map((reel) => ({ copy: id, tool, reel }))
    }),
  )
  return { ...slate, locks }
}

it.each(Array.from({ length: 25 }, (_, i) => i + 1))(
  'slate %i with locks: of the plans that take every reel locked none is better',
  async (seed) => {
    const { locks = [], ...slate } = lockedSlate(seed)
    const plan = await matchSlate({ ...slate, locks }, { solver: highsSolver() })
    const best = bestOfEveryPlan(slate, {
      isKept: ({ servings }, { id, tasks }, { reels }) =>
        locks
          .filter(({ copy }) => copy === id)
          .every(({ tool, reel }) => {
            const { place, mostChanges } = tasks.find((task) => task.tool === tool)!
            const own = servings.filter(({ piece }) => piece.task === place)
            const ids = own.map((one) => reels[one.reel]!.id)
            return ids.includes(reel) && (mostChanges > 0 || ids.length === 1)
          }),
    })
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
