import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { bestOfEveryPlan } from './every-plan.ts'
import { randomSlate, waitingSlate } from './random-slate.ts'

// `node benchmarks/match-exact.ts` holds a thousand against every plan there is; here are the first of them.
const seeds = Array.from({ length: 15 }, (_, i) => i + 1)
const isBest = async (slate: MatchSlate): Promise<void> => {
  const plan = await matchSlate(slate, { solver: highsSolver() })
  const best = bestOfEveryPlan(slate)
  for (const [i, { value, bound }] of plan.levels.entries()) {
    expect(value).toBeCloseTo(best.value[i]!, 2)
    expect(bound).toBeLessThanOrEqual(value + 0.01)
  }
  expect(plan.proven).toBe(true)
}

it.each(seeds)('slate %i: no plan of all there are is better', (seed) =>
  isBest(randomSlate(new SeededRandom(seed))),
)

it.each([...seeds, 89])('slate %i with few reels for its printers: none is better', (seed) =>
  isBest(waitingSlate(new SeededRandom(seed))),
)

/** Printers may be at work until long after what they could do is due. */
const busySlate = (seed: number): MatchSlate => {
  const slate = waitingSlate(new SeededRandom(seed))
  const random = new SeededRandom(9000 + seed)
  const printers = slate.printers.map((printer) =>
    random.uniform() < 0.5 ? { ...printer, free_h: Math.floor(12 * random.uniform()) } : printer,
  )
  return { ...slate, printers }
}

it.each([...seeds, 53])('slate %i with printers at work for long: none is better', (seed) =>
  isBest(busySlate(seed)),
)

/** Prints run on the first printer and on others, each from a reel of its own. */
const runningSlate = (seed: number): MatchSlate => {
  const slate = waitingSlate(new SeededRandom(seed))
  const random = new SeededRandom(7000 + seed)
  const left = slate.reels.map(({ id }) => id)
  const printers = slate.printers.map((printer, i) => {
    if (left.length === 0 || (i > 0 && random.uniform() < 0.7)) return printer
    const free_h = Math.floor(6 * random.uniform())
    const [reel] = left.splice(Math.floor(left.length * random.uniform()), 1)
    const draw = [{ weight: 1, peak_mm: 1000 * random.between(5, 120) }]
    return { ...printer, free_h, running: [{ tool: 0, reel: reel!, draw }] }
  })
  return { ...slate, printers }
}

it.each(seeds)('slate %i with prints that run: none is better', (seed) =>
  isBest(runningSlate(seed)),
)

it.each([50042, 50900])('slate %i, where a change saves being late: none is better', (seed) =>
  isBest(randomSlate(new SeededRandom(seed))),
)

it.each(seeds.slice(0, 10))(
  'slate %i: what is passed over among all plans is not better',
  (seed) => {
    const slate = randomSlate(new SeededRandom(seed))
    const best = bestOfEveryPlan(slate)
    const all = bestOfEveryPlan(slate, { isCut: false })
    expect(all.value).toEqual(best.value)
    expect(all.reckoned).toBeGreaterThan(best.reckoned)
  },
)
