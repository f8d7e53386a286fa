import { expect, it } from 'vitest'
import { matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { copyOf, exactPrinter, reelOf, slateOf } from './told-slate.ts'

it('prints of two tools that each have a reel on one printer are solved together: one takes off the other’s', async () => {
  const ofTwo = (id: string, reels: readonly string[]) =>
    copyOf(id, 50, [], {
      tasks: reels.map((reel, tool) => ({
        tool,
        draw: [{ weight: 1, peak_mm: 50_000 }],
        fits: [reel],
      })),
    })
  const slate = slateOf(
    [ofTwo('duo', ['r', 's']), ofTwo('pair', ['t', 'u'])],
    ['r', 's', 't', 'u'].map((id) => reelOf(id, 500)),
    { printers: [exactPrinter('a', { loaded: { 0: 'r', 1: 'u' } })] },
  )
  const plan = await matchSlate(slate, { solver: highsSolver() })
  expect(plan.proven).toBe(true)
  // s beside r, then t and, once more, u.
  expect(plan.levels.find(({ level }) => level === 'swaps')).toMatchObject({ value: 3, bound: 3 })
})
