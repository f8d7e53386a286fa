import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type LoadKind, type LoadProblem, loadLevels } from '../../src/match/load-problem.ts'
import { everyLoad, searchLoads } from '../../src/match/load-search.ts'

const useful = 12

/** A kind that holds `capacity`, with items on three places, and prices as a program might set them. */
const randomCase = (random: SeededRandom) => {
  const count = 8
  const items = Array.from({ length: count }, (_, group) => ({
    group,
    task: 0,
    printer: group % 3,
    from: 0,
    to: 1,
    inTime: false,
  }))
  const weights = items.map(() => random.between(3, 40))
  const capacity = random.between(30, 110)
  const weightOf = (load: readonly number[]): number =>
    load.reduce((sum, item) => sum + weights[item]!, 0)
  const stubAlone = capacity < useful ? capacity : 0
  const kind: LoadKind = {
    count: 1,
    items: items.map((_, item) => item),
    weights,
    capacity,
    isSafe: (load) => weightOf(load) <= capacity,
    cost: (load) => {
      const left = capacity - weightOf(load)
      const cost = new Float64Array(loadLevels.length)
      cost[loadLevels.indexOf('stubs')] = (left < useful ? left : 0) - stubAlone
      cost[loadLevels.indexOf('swaps')] = new Set(load.map((item) => item % 3)).size
      return cost
    },
    itemCost: () => [0, 0],
    places: items.map(({ printer }) => printer),
    openedCost: 0,
    stubAlone,
    left: capacity,
    free_h: 0,
    takes: weights,
  }
  const problem: LoadProblem = {
    groups: items.map(() => ({
      count: 1,
      importance: 0,
      printers: [0, 1, 2],
      due_h: Infinity,
      duration_h: 0,
      nodes: [2],
    })),
    items,
    kinds: [kind],
    free_h: [0, 0, 0],
    importances: [0],
    stub: { above: 0, below: useful },
    moreSwaps: () => 0,
    whyMoreSwaps: () => [],
    hasEarlier: false,
  }
  return { problem, kind }
}

describe('against every load there is', () => {
  it.each(Array.from({ length: 60 }, (_, i) => i + 1))('prices of seed %i', (seed) => {
    const random = new SeededRandom(seed)
    const { problem, kind } = randomCase(random)
    const worth = kind.items.map(() => random.between(-1, 4))
    const stubs = random.uniform() < 0.5 ? random.between(0, 0.5) : 0
    const swaps = random.uniform() < 0.5 ? random.between(0, 3) : 0
    const fixed = random.between(0, 3)
    const reducedOf = (load: readonly number[], cost: Float64Array): number =>
      fixed +
      stubs * cost[loadLevels.indexOf('stubs')]! +
      swaps * cost[loadLevels.indexOf('swaps')]! -
      load.reduce((sum, item) => sum + worth[item]!, 0)
    const all = everyLoad(problem, kind, 1000)!.map(({ load, cost }) => reducedOf(load, cost))
    const below = 1
    const { found, least, complete } = searchLoads(problem, kind, {
      worth,
      fixed,
      stubs,
      swaps,
      below,
      most: 5,
      effort: 1e6,
    })
    const best = all.filter((reduced) => reduced < below).toSorted((a, b) => a - b)
    expect(complete).toBe(true)
    expect(found.map(({ reduced }) => reduced)).toHaveLength(Math.min(5, best.length))
    for (const [i, { reduced }] of found.entries()) expect(reduced).toBeCloseTo(best[i]!, 9)
    expect(least).toBeLessThanOrEqual(Math.min(...all) + 1e-9)
  })

  it('every load is safe, and none is there twice', () => {
    const { problem, kind } = randomCase(new SeededRandom(7))
    const loads = everyLoad(problem, kind, 1000)!.map(({ load }) => load)
    let safe = 0
    for (let set = 1; set < 2 ** kind.items.length; set++) {
      safe += Number(kind.isSafe(kind.items.filter((item) => (set >> item) & 1)))
    }
    expect(new Set(loads.map((load) => load.join())).size).toBe(safe)
    expect(loads.every((load) => kind.isSafe(load))).toBe(true)
  })

  it('says so where there are more than asked for, or too little time', () => {
    const { problem, kind } = randomCase(new SeededRandom(7))
    expect(everyLoad(problem, kind, 5)).toBeNull()
    const worth = kind.items.map(() => 1)
    const wish = { worth, fixed: 0, stubs: 0, swaps: 0, below: 0, most: 5, effort: 2 }
    const { complete, least, found } = searchLoads(problem, kind, wish)
    expect(complete).toBe(false)
    // What was not looked at may still be as good as the knapsack by weight allows.
    expect(least).toBeLessThanOrEqual(found[0]!.reduced)
  })
})
