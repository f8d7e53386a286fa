import { expect, it } from 'vitest'
import { type MatchProgress, matchSlate } from '../../src/match/index.ts'
import { highsSolver, matchInThread } from '../../src/solver/index.ts'
import { copyOf, reelOf, slateOf } from './told-slate.ts'

const slate = slateOf(
  [copyOf('hook', 100, ['r', 's']), copyOf('crate', 150, ['r', 's'])],
  [reelOf('r', 160), reelOf('s', 260)],
)

const partOf = (kind: string) =>
  slateOf(
    [20, 30, 40, 50, 60, 70].map((grams) =>
      copyOf(`${kind} of ${grams}`, grams, [`${kind} r`, `${kind} s`]),
    ),
    [reelOf(`${kind} r`, 165), reelOf(`${kind} s`, 130)],
  )

/** What is found is meant here, not how soon: on a busy machine a thread alone takes seconds to begin. */
const unhurried = { limit_ms: Infinity } as const
const patience = 300_000

it('finds in a thread what it finds here, and tells how far it is', {
  timeout: patience,
}, async () => {
  const told: MatchProgress[] = []
  const plan = await matchInThread(slate, {
    ...unhurried,
    progress: (progress) => told.push(progress),
  })
  expect(plan).toEqual(await matchSlate(slate, { solver: highsSolver() }))
  expect(told.map(({ done }) => done)).toEqual([0, 0, 1])
})

it('stops when asked to, with a plan that holds', async () => {
  const plan = await matchInThread(slate, { signal: AbortSignal.abort() })
  expect(plan.ended).toBe('cancelled')
  expect(plan.served).toHaveLength(2)
})

it('says what is wrong with a slate', async () => {
  await expect(matchInThread({ ...slate, confidence: 2 })).rejects.toMatchObject({
    code: 'confidence_out_of_range',
  })
})

it('solves parts of some size side by side, with the same outcome', {
  timeout: patience,
}, async () => {
  const [one, other] = [partOf('red'), partOf('grey')]
  const both = slateOf([...one.copies, ...other.copies], [...one.reels, ...other.reels])
  const plan = await matchInThread(both, unhurried)
  expect(plan).toEqual(await matchSlate(both, { solver: highsSolver() }))
  expect(plan.proven).toBe(true)
})
