import type { LinearSolver } from './linear-solver.ts'
import {
  type FixedLevel,
  LoadMaster,
  type MasterPrices,
  type ProblemLevel,
  problemLevels,
} from './load-master.ts'
import { type LoadAnswer, type LoadProblem, loadLevels } from './load-problem.ts'
import { everyLoad, type LoadsFound, searchLoads } from './load-search.ts'

/** How to solve a problem. */
export interface SolveOptions {
  readonly solver: LinearSolver
  /** Seconds left; Infinity without a limit. */
  readonly left_s: () => number
  readonly isCancelled: () => boolean
  /** Called with each better answer. */
  readonly better?: (answer: LoadAnswer) => void
}

/** The best answer found, and how good one could be. */
export interface SolvedLoads {
  readonly answer: LoadAnswer
  /** In the order of `problemLevels`; what reels left alone add is not counted. */
  readonly values: readonly number[]
  /** Nothing that is as good at the levels before can be less. */
  readonly bounds: readonly number[]
}

/** So many loads are all written down at once; of more, those are looked for that are worth it. */
const fewLoads = 1500
/** Loads taken from one kind in one round of looking. */
const perRound = 25
/** Loads looked at for one kind in one round. */
const effortOfRound = 200_000
/** Loads that may still be part of a better answer, all written down at most so many. */
const manyLoads = 6000
/** Below this a reduced cost is nothing. */
const nothing = 1e-7
/** A level in grams is proven when nothing can be better by more than this, g. */
export const gramsWithin = 0.01

/**
 * Solves a problem level by level. Each level is first solved with loads that may be used in part, new
 * loads being looked for as long as one would make that better (Gilmore and Gomory 1961, from memory):
 * its value is a bound. Then in whole loads; and where that leaves a gap, once more with all loads whose
 * reduced cost is within it, for no other load can be part of anything better.
 *
 * @param start - an answer to begin with; one that serves nothing will do
 */
export const solveLoads = async (
  problem: LoadProblem,
  start: LoadAnswer,
  options: SolveOptions,
): Promise<SolvedLoads> => {
  const master = new LoadMaster(problem)
  for (const { kind, load } of start.loads) {
    master.add({ kind, load, cost: problem.kinds[kind]!.cost(load) })
  }
  const isAll = addEveryLoad(problem, master)
  const levels = problemLevels(problem)
  const fixed: FixedLevel[] = []
  const values: number[] = []
  const bounds: number[] = []
  let answer = start
  for (const level of levels) {
    const value = master.valueOf(answer, level)
    const solved = isOver(options)
      ? { answer, bound: leastOf(problem, level) }
      : await solveLevel(problem, master, level, fixed, answer, isAll, options)
    answer = solved.answer
    const reached = Math.min(value, master.valueOf(answer, level))
    values.push(reached)
    bounds.push(Math.min(solved.bound, reached))
    fixed.push({ level, most: reached })
  }
  return { answer, values, bounds }
}

const isOver = ({ left_s, isCancelled }: SolveOptions): boolean => left_s() <= 0 || isCancelled()

/** Writes all loads down where they are few. */
const addEveryLoad = (problem: LoadProblem, master: LoadMaster): boolean => {
  let room = fewLoads
  const all = problem.kinds.map((kind) => {
    const loads = room > 0 ? everyLoad(problem, kind, room) : null
    room -= loads?.length ?? fewLoads
    return loads
  })
  if (room < 0 || all.includes(null)) return false
  for (const [kind, loads] of all.entries()) {
    for (const { load, cost } of loads!) master.add({ kind, load, cost })
  }
  return true
}

/** What a level is at least, whatever the loads. */
const leastOf = ({ kinds }: LoadProblem, { level }: ProblemLevel): number =>
  level === 'stubs' ? -kinds.reduce((sum, { count, stubAlone }) => sum + count * stubAlone, 0) : 0

interface SolvedLevel {
  readonly answer: LoadAnswer
  readonly bound: number
}

const solveLevel = async (
  problem: LoadProblem,
  master: LoadMaster,
  level: ProblemLevel,
  fixed: readonly FixedLevel[],
  answer: LoadAnswer,
  isAll: boolean,
  options: SolveOptions,
): Promise<SolvedLevel> => {
  const isWhole = level.level !== 'stubs'
  const within = isWhole ? 1 - slackOfWhole : gramsWithin
  const value = master.valueOf(answer, level)
  const least = leastOf(problem, level)
  if (value <= least + nothing) return { answer, bound: least }

  const relaxed = await relaxedBound(problem, master, level, fixed, isAll, options)
  const bound = Math.max(least, isWhole ? Math.ceil(relaxed.bound - slackOfWhole) : relaxed.bound)
  if (value <= bound + (isWhole ? nothing : within)) return { answer, bound }

  let best = answer
  const inWhole = async (): Promise<number> => {
    const model = master.model(level, fixed)
    const left = options.left_s()
    const {
      columns,
      bound: reached,
      status,
    } = await options.solver({
      model,
      start: master.columnsOf(best),
      ...(left < Infinity && { limit_s: left }),
    })
    if (columns) {
      const found = master.answerOf(columns)
      if (master.valueOf(found, level) < master.valueOf(best, level) - nothing) {
        best = found
        options.better?.(found)
      }
    }
    return status === 'optimal' ? master.valueOf(best, level) : reached
  }
  const reached = await inWhole()
  if (isAll)
    return {
      answer: best,
      bound: Math.max(bound, isWhole ? Math.ceil(reached - slackOfWhole) : reached),
    }
  const gap = master.valueOf(best, level) - relaxed.bound
  const isClosed = isWhole ? master.valueOf(best, level) <= bound + nothing : gap <= within
  if (isClosed || isOver(options) || !relaxed.prices) return { answer: best, bound }
  const isComplete = addWithin(problem, master, level, relaxed.prices, gap - within)
  const again = await inWhole()
  return {
    answer: best,
    bound: isComplete ? Math.max(bound, isWhole ? Math.ceil(again - slackOfWhole) : again) : bound,
  }
}

/** Whole numbers are proven up to this. */
const slackOfWhole = 1e-4

interface RelaxedBound {
  readonly bound: number
  /** Null where the looking for loads did not come to its end. */
  readonly prices: MasterPrices | null
}

/** The value of a level with loads used in part, which nothing in whole loads can be below. */
const relaxedBound = async (
  problem: LoadProblem,
  master: LoadMaster,
  level: ProblemLevel,
  fixed: readonly FixedLevel[],
  isAll: boolean,
  options: SolveOptions,
): Promise<RelaxedBound> => {
  let bound = -Infinity
  for (;;) {
    const model = master.model(level, fixed)
    const left = options.left_s()
    const { value, rowDual } = await options.solver({
      model,
      relaxed: true,
      ...(left < Infinity && { limit_s: left }),
    })
    if (!rowDual) return { bound, prices: null }
    if (isAll) return { bound: value, prices: null }
    const prices = master.prices(rowDual, fixed)
    let added = false
    let below = value
    let isComplete = true
    for (const [kind, { count }] of problem.kinds.entries()) {
      const { found, least, complete } = search(problem, level, prices, kind, {
        below: -nothing,
        most: perRound,
      })
      isComplete &&= complete
      below += count * Math.min(0, least)
      for (const { load, cost } of found) added = master.add({ kind, load, cost }) || added
    }
    // Lagrange's bound: with these prices no load in use can gain more than the best of its kind.
    bound = Math.max(bound, below)
    if (!added)
      return {
        bound: isComplete ? Math.max(bound, value) : bound,
        prices: isComplete ? prices : null,
      }
    if (isOver(options)) return { bound, prices: null }
  }
}

/** Writes down every load that a gap leaves room for; false where they are too many. */
const addWithin = (
  problem: LoadProblem,
  master: LoadMaster,
  level: ProblemLevel,
  prices: MasterPrices,
  gap: number,
): boolean => {
  let isComplete = true
  for (const kind of problem.kinds.keys()) {
    const { found, complete } = search(problem, level, prices, kind, {
      below: gap + nothing,
      most: manyLoads,
    })
    isComplete &&= complete && found.length < manyLoads
    for (const { load, cost } of found) master.add({ kind, load, cost })
  }
  return isComplete
}

/** Looks for loads of a kind at the prices of a level. */
const search = (
  problem: LoadProblem,
  { level }: ProblemLevel,
  prices: MasterPrices,
  place: number,
  wish: { readonly below: number; readonly most: number },
): LoadsFound => {
  const kind = problem.kinds[place]!
  const priceOf = (at: (typeof loadLevels)[number]): number =>
    prices.levels[loadLevels.indexOf(at)]! + Number(at === level)
  const worth = kind.items.map((item) => {
    const [changes, different] = kind.itemCost(item)
    return prices.items[item]! - priceOf('changes') * changes - priceOf('different') * different
  })
  return searchLoads(problem, kind, {
    ...wish,
    worth,
    fixed: prices.kinds[place]! + priceOf('opened') * kind.openedCost,
    stubs: priceOf('stubs'),
    swaps: priceOf('swaps'),
    effort: effortOfRound,
  })
}
