import { expect, it } from 'vitest'
import { type MatchProgress, matchSlate } from '../../src/match/index.ts'
import { highsSolver, matchInThread } from '../../src/solver/index.ts'
import { copyOf, reelOf, slateOf } from './told-slate.ts'

const slate = slateOf(
  [copyOf('hook', 100, ['r', 's']), copyOf('crate', 150, ['r', 's'])],
  [reelOf('r', 160), reelOf('s', 260)],
)

it('finds in a thread what it finds here, and tells how far it is', async () => {
  const told: MatchProgress[] = []
  const plan = await matchInThread(slate, { progress: (progress) => told.push(progress) })
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
