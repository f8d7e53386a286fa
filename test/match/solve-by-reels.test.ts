import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type ItemLoad, type LoadProblem, loadLevels } from '../../src/match/load-problem.ts'
import { solveLoads } from '../../src/match/solve-loads.ts'
import { highsSolver } from '../../src/solver/index.ts'

const useful = 15
const stubsAt = loadLevels.indexOf('stubs')
const swapsAt = loadLevels.indexOf('swaps')

/** Prints of some grams on two printers, and reels that hold some. */
interface Bench {
  readonly prints: readonly number[]
  readonly reels: readonly number[]
}

const benchOf = (random: SeededRandom): Bench => ({
  prints: Array.from({ length: 4 }, () => Math.round(random.between(10, 60))),
  reels: Array.from({ length: 3 }, () => Math.round(random.between(10, 130))),
})

const stubOf = (left: number): number => (left > 0 && left < useful ? left : 0)

/** @param isBlind - nothing is told of what is too heavy: it shows only when a load is asked about */
const problemOf = ({ prints, reels }: Bench, isBlind: boolean): LoadProblem => {
  const items = prints.flatMap((_, group) =>
    [0, 1].map((printer) => ({ group, task: 0, printer, from: 0, to: 1, inTime: false })),
  )
  const places = items.map((_, place) => place)
  const massOf = (load: ItemLoad): number =>
    load.reduce((sum, item) => sum + prints[items[item]!.group]!, 0)
  return {
    groups: prints.map(() => ({
      count: 1,
      importance: 0,
      printers: [0, 1],
      due_h: Infinity,
      duration_h: 0,
      nodes: [2],
    })),
    items,
    kinds: reels.map((net) => ({
      count: 1,
      items: places,
      weights: items.map(({ group }) => (isBlind ? 0 : prints[group]!)),
      capacity: isBlind ? Infinity : net,
      isSafe: (load) => massOf(load) <= net,
      cost: (load) => {
        const cost = new Float64Array(loadLevels.length)
        cost[stubsAt] = stubOf(net - massOf(load)) - stubOf(net)
        cost[swapsAt] = new Set(load.map((item) => items[item]!.printer)).size
        return cost
      },
      itemCost: () => [0, 0],
      places: items.map(({ printer }) => printer),
      openedCost: 0,
      stubAlone: stubOf(net),
      left: net,
      free_h: 0,
      takes: items.map(({ group }) => prints[group]!),
    })),
    free_h: [0, 0],
    importances: [0],
    stub: { above: 0, below: useful },
    moreSwaps: () => [],
    hasEarlier: false,
  }
}

/** The fewest not served, then stubs, g, then swaps, by looking at every way. */
const bestOf = ({ prints, reels }: Bench): readonly number[] => {
  let best: readonly number[] = [Infinity]
  const left = [...reels]
  const put: Set<number>[] = reels.map(() => new Set())
  const look = (print: number, unserved: number): void => {
    if (print === prints.length) {
      const stubs = left.reduce((sum, each) => sum + stubOf(each), 0)
      const swaps = put.reduce((sum, on) => sum + on.size, 0)
      const value = [unserved, stubs, swaps]
      const at = value.findIndex((each, i) => each !== best[i])
      if (at >= 0 && !(value[at]! > best[at]!)) best = value
      return
    }
    for (const [reel, on] of put.entries()) {
      if (left[reel]! < prints[print]!) continue
      left[reel]! -= prints[print]!
      for (const printer of [0, 1]) {
        const isNew = !on.has(printer)
        on.add(printer)
        look(print + 1, unserved)
        if (isNew) on.delete(printer)
      }
      left[reel]! += prints[print]!
    }
    look(print + 1, unserved + 1)
  }
  look(0, 0)
  return best
}

describe.each([
  ['told what is too heavy', false],
  ['told only of each load whether it is safe', true],
])('%s', (_, isBlind) => {
  it.each(Array.from({ length: 12 }, (__, i) => i + 1))(
    'bench %i: the fewest swaps',
    async (seed) => {
      const bench = benchOf(new SeededRandom(seed))
      const problem = problemOf(bench, isBlind)
      const nothing = { loads: [], served: problem.groups.map(() => []) }
      const { values, bounds } = await solveLoads(problem, nothing, {
        solver: highsSolver(),
        left_s: () => Infinity,
        isCancelled: () => false,
      })
      const alone = bench.reels.reduce((sum, net) => sum + stubOf(net), 0)
      const [unserved, , , , stubs, swaps] = values
      expect([unserved, Math.round(stubs! + alone), swaps]).toEqual(bestOf(bench))
      expect(bounds.at(-1)).toBe(swaps)
    },
  )
})
