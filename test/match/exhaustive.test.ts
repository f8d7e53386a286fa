import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { bestOfEveryPlan } from './every-plan.ts'
import { randomSlate } from './random-slate.ts'

// `node benchmarks/match-exact.ts` holds a thousand against every plan there is; here are the first of them.
const seeds = Array.from({ length: 15 }, (_, i) => i + 1)
it.each(seeds)('slate %i: no plan of all there are is better', async (seed) => {
  const slate = randomSlate(new SeededRandom(seed))
  const plan = await matchSlate(slate, { solver: highsSolver() })
  const best = bestOfEveryPlan(slate)
  for (const [i, { value, bound }] of plan.levels.entries()) {
    expect(value).toBeCloseTo(best.value[i]!, 2)
    expect(bound).toBeLessThanOrEqual(value + 0.01)
  }
  // It is not called so only where a wait for a reel makes late what its own printer would not.
  const late = plan.levels.find(({ level }) => level === 'late')!
  const waits = plan.served.filter((each) => each.late).length > late.value
  expect(plan.proven).toBe(!waits)
})

it.each(seeds.slice(0, 10))(
  'slate %i: what is passed over among all plans is not better',
  (seed) => {
    const slate = randomSlate(new SeededRandom(seed))
    const best = bestOfEveryPlan(slate)
    const all = bestOfEveryPlan(slate, false)
    expect(all.value).toEqual(best.value)
    expect(all.reckoned).toBeGreaterThan(best.reckoned)
  },
)
