import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  type ItemLoad,
  type LoadAnswer,
  type LoadProblem,
  loadLevels,
} from '../../src/match/load-problem.ts'
import { ReelProgram } from '../../src/match/reel-program.ts'
import { solveLoads } from '../../src/match/solve-loads.ts'
import { highsSolver } from '../../src/solver/index.ts'

const useful = 15
const stubsAt = loadLevels.indexOf('stubs')
const swapsAt = loadLevels.indexOf('swaps')

/** Prints of some grams on two printers, and reels that hold some. */
interface Bench {
  readonly prints: readonly number[]
  readonly reels: readonly number[]
  /** Two unless given. */
  readonly printers?: readonly number[]
  /** Prints that on a printer together have so many more swaps; of those that are all there the most count. */
  readonly crowds?: readonly Crowd[]
}

interface Crowd {
  readonly printer: number
  readonly prints: readonly number[]
  readonly more: number
}

const benchOf = (random: SeededRandom): Bench => ({
  prints: Array.from({ length: 4 }, () => Math.round(random.between(10, 60))),
  reels: Array.from({ length: 3 }, () => Math.round(random.between(10, 130))),
})

/** By printer, which crowd counts. */
const crowdsAt = (
  { crowds = [] }: Bench,
  printerOf: (print: number) => number | undefined,
): readonly Crowd[] =>
  [0, 1].flatMap((printer) => {
    const there = crowds.filter(
      (crowd) =>
        crowd.printer === printer && crowd.prints.every((print) => printerOf(print) === printer),
    )
    return there.toSorted((a, b) => b.more - a.more).slice(0, 1)
  })

const stubOf = (left: number): number => (left > 0 && left < useful ? left : 0)

/** @param isBlind - nothing is told of what is too heavy: it shows only when a load is asked about */
const problemOf = (bench: Bench, isBlind: boolean): LoadProblem => {
  const { prints, reels, printers = [0, 1] } = bench
  const items = prints.flatMap((_, group) =>
    printers.map((printer) => ({ group, task: 0, printer, from: 0, to: 1, inTime: false })),
  )
  const places = items.map((_, place) => place)
  const massOf = (load: ItemLoad): number =>
    load.reduce((sum, item) => sum + prints[items[item]!.group]!, 0)
  const crowdsIn = ({ served }: LoadAnswer): readonly Crowd[] =>
    crowdsAt(bench, (print) => served[print]![0]?.printer)
  return {
    groups: prints.map(() => ({
      count: 1,
      importance: 0,
      printers,
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
    moreSwaps: (answer) => crowdsIn(answer).reduce((sum, { more }) => sum + more, 0),
    whyMoreSwaps: (answer) =>
      crowdsIn(answer).map(({ prints: few, more }) => ({ groups: few, more })),
    hasEarlier: false,
  }
}

/** The fewest not served, then stubs, g, then swaps, by looking at every way. */
const bestOf = (bench: Bench): readonly number[] => {
  const { prints, reels } = bench
  let best: readonly number[] = [Infinity]
  const left = [...reels]
  const put: Set<number>[] = reels.map(() => new Set())
  const where: (number | undefined)[] = prints.map(() => undefined)
  const look = (print: number, unserved: number): void => {
    if (print === prints.length) {
      const stubs = left.reduce((sum, each) => sum + stubOf(each), 0)
      const more = crowdsAt(bench, (each) => where[each])
      const swaps = [...put.map((on) => on.size), ...more.map((crowd) => crowd.more)].reduce(
        (sum, each) => sum + each,
        0,
      )
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
        where[print] = printer
        look(print + 1, unserved)
        where[print] = undefined
        if (isNew) on.delete(printer)
      }
      left[reel]! += prints[print]!
    }
    look(print + 1, unserved + 1)
  }
  look(0, 0)
  return best
}

/** The same, and the order along printers has more swaps where certain prints are there together. */
const crowdedBenchOf = (random: SeededRandom): Bench => ({
  ...benchOf(random),
  crowds: Array.from({ length: 8 }, () => ({
    printer: Math.floor(random.between(0, 2)),
    prints: [0, 1, 2, 3].filter(() => random.uniform() < 0.5),
    more: Math.floor(random.between(1, 4)),
  })).filter(({ prints }) => prints.length > 1),
})

describe.each([
  ['told what is too heavy', false, benchOf],
  ['told only of each load whether it is safe', true, benchOf],
  ['where orders need more', false, crowdedBenchOf],
] as const)('%s', (_, isBlind, benchFor) => {
  it.each(Array.from({ length: 12 }, (__, i) => i + 1))(
    'bench %i: the fewest swaps',
    async (seed) => {
      const bench = benchFor(new SeededRandom(seed))
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

it('does not count twice what is said of a printer twice', async () => {
  const problem = problemOf({ prints: [10, 10, 10], reels: [100], printers: [0] }, false)
  const [unserved, swaps] = [{ level: 'unserved', importance: 0 }, { level: 'swaps' }] as const
  const program = new ReelProgram(problem, swaps, [{ level: unserved, most: 0 }])
  const solver = highsSolver()
  const before = await solver({ model: program.model(Infinity) })
  expect(before.value).toBeCloseTo(1)
  expect(program.addTogether(before.columns!, [0, 1], 1)).toBe(true)
  expect(program.addTogether(before.columns!, [0, 1, 2], 2)).toBe(true)
  expect((await solver({ model: program.model(Infinity) })).value).toBeCloseTo(3)
})
