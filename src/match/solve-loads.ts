import {
  inHalf,
  isOver,
  keepsLevels,
  type LevelAtHand,
  type SolvedLevel,
  type SolveOptions,
  settledBy,
  slackOfWhole,
} from './level-at-hand.ts'
import type { LinearAnswer, LinearBasis } from './linear-solver.ts'
import { LoadMaster, type MasterPrices } from './load-master.ts'
import { type LoadAnswer, type LoadLevel, type LoadProblem, loadLevels } from './load-problem.ts'
import { everyLoad, type LoadsFound, type LoadWish, searchLoads } from './load-search.ts'
import { type FixedLevel, type ProblemLevel, problemLevels, valueAt } from './problem-level.ts'
import { leastByReels, solveByReels } from './solve-by-reels.ts'

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
/** Loads looked at for one kind in one round: few while prices are far off, more where few find nothing. */
const leastEffort = 500
const someEffort = 5000
const mostEffort = 500_000
/** A round that makes the value less by no more than this share of it has hardly moved the prices. */
const stillShare = 0.002
/** Levels that the program of reels is asked first where copies can be late: prices say little of them then. */
const byReelsWhereLate: ReadonlySet<ProblemLevel['level']> = new Set(['late', 'changes', 'opened'])
/** How often a level's program is asked again with one more thing said that can not be in time. */
const mostClashes = 200
/** Loads that may still be part of a better answer, of which so many are written down at most. */
const manyLoads = 4000
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
  addLoads(problem, master, start)
  const isAll = addEveryLoad(problem, master, options.isCancelled)
  const all = problemLevels(problem)
  const levels = all.slice(0, levelsUntil(all, options.until))
  const fixed: FixedLevel[] = []
  const values: number[] = []
  const bounds: number[] = []
  let answer = start
  /** What was rebuilt last. */
  let rebuilt: LoadAnswer | null = null
  for (const [i, level] of levels.entries()) {
    const isByReels =
      level.level === 'swaps' ||
      (problem.settled !== undefined && byReelsWhereLate.has(level.level))
    const before = Math.max(leastOf(problem, level), knownBound(options, values))
    const least =
      isByReels && valueAt(problem, answer, level) > before && !isOver(options)
        ? // Each level hangs on the one before.
          // oxlint-disable-next-line no-await-in-loop
          Math.max(before, await leastByReels(problem, level, fixed, options))
        : before
    const isAtBest = valueAt(problem, answer, level) <= least + nothing
    if (options.rebuilt && !isAtBest && answer !== rebuilt && !isOver(options)) {
      rebuilt = options.rebuilt(answer)
      addLoads(problem, master, rebuilt)
      if (isAsGood(problem, rebuilt, answer, all)) {
        answer = rebuilt
        // What is better at one level may be worse at a later one: what is fixed is what it comes to.
        for (const [k, { level: at }] of fixed.entries()) {
          const most = valueAt(problem, answer, at)
          fixed[k] = { level: at, most }
          values[k] = most
          bounds[k] = Math.min(bounds[k]!, most)
        }
      }
      rebuilt = answer
    }
    const value = valueAt(problem, answer, level)
    const hand = {
      problem,
      master,
      level,
      fixed,
      isAll,
      options: shareOf(options, levels.length - i),
    }
    let solved: SolvedLevel = { answer, value, bound: least }
    if (isByReels && !isOver(options)) {
      // oxlint-disable-next-line no-await-in-loop -- as above
      solved = await solveByReels(hand, answer, least)
      addLoads(problem, master, solved.answer)
    }
    if (level.level !== 'swaps' && !isOver(options)) {
      // oxlint-disable-next-line no-await-in-loop -- as above
      solved = await solveLevel(hand, solved.answer, solved.bound)
    }
    answer = solved.answer
    const reached = solved.value
    values.push(reached)
    bounds.push(Math.min(solved.bound, reached))
    fixed.push({ level, most: reached })
  }
  return { answer, values, bounds }
}

/** What is known from elsewhere of the level that comes after some values. */
const knownBound = ({ known }: SolveOptions, values: readonly number[]): number => {
  const bound = known?.bounds[values.length]
  if (bound === undefined) return -Infinity
  return values.every((value, i) => value <= known!.values[i]! + nothing) ? bound : -Infinity
}

/** How many levels come before one. */
const levelsUntil = (
  levels: readonly ProblemLevel[],
  until: ProblemLevel['level'] | undefined,
): number => {
  const place = levels.findIndex(({ level }) => level === until)
  return place < 0 ? levels.length : place
}

/** Whether an answer is not worse than another at the first level at which they differ. */
const isAsGood = (
  problem: LoadProblem,
  a: LoadAnswer,
  b: LoadAnswer,
  levels: readonly ProblemLevel[],
): boolean => {
  for (const level of levels) {
    const less = valueAt(problem, b, level) - valueAt(problem, a, level)
    if (Math.abs(less) > nothing) return less > 0
  }
  return true
}

const addLoads = ({ kinds }: LoadProblem, master: LoadMaster, { loads }: LoadAnswer): void => {
  for (const { kind, load } of loads) master.add({ kind, load, cost: kinds[kind]!.cost(load) })
}

/** The time that a level may take: of so many that are left, none takes more than half of it. */
const shareOf = (options: SolveOptions, levels: number): SolveOptions =>
  levels < 2 ? options : inHalf(options)

/** Writes all loads down where they are few. */
const addEveryLoad = (
  problem: LoadProblem,
  master: LoadMaster,
  isCancelled: () => boolean,
): boolean => {
  let room = fewLoads
  const all = problem.kinds.map((kind) => {
    const loads = room > 0 ? everyLoad(problem, kind, room, isCancelled) : null
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
export const leastOf = ({ kinds }: LoadProblem, { level }: ProblemLevel): number =>
  level === 'stubs' ? -kinds.reduce((sum, { count, stubAlone }) => sum + count * stubAlone, 0) : 0

const solveLevel = async (
  hand: LevelAtHand,
  answer: LoadAnswer,
  atLeast: number,
): Promise<SolvedLevel> => {
  const { problem, master, level, options } = hand
  const isWhole = level.level !== 'stubs'
  const valueOf = (of: LoadAnswer): number => valueAt(problem, of, level)
  /** What a bound comes to where only whole numbers can be. */
  const rounded = (bound: number): number => (isWhole ? Math.ceil(bound - slackOfWhole) : bound)
  const within = isWhole ? nothing : gramsWithin
  let best = answer
  let bound = atLeast
  const isProven = (): boolean => valueOf(best) <= bound + within

  /** Looks for something better in whole loads; true where there is nothing better in the program. */
  const inWhole = async (): Promise<boolean> => {
    for (let round = 0; round < mostClashes; round++) {
      const left = options.left_s()
      // Each round hangs on the one before.
      // oxlint-disable-next-line no-await-in-loop
      const { columns, status } = await options.solver({
        model: master.model(level, hand.fixed),
        start: master.columnsOf(best),
        ...(left < Infinity && { limit_s: left }),
      })
      const found = columns && master.answerOf(columns)
      if (!found) return status === 'optimal'
      const { answer: settled, clash } = settledBy(problem, found)
      const isKept = keepsLevels(problem, hand.fixed, settled)
      if (isKept && valueOf(settled) < valueOf(best) - nothing) {
        addLoads(problem, master, settled)
        best = settled
        options.better?.(settled)
      }
      if (isKept && valueOf(settled) <= valueOf(found) + nothing) return status === 'optimal'
      if (clash === null || clash === 'unknown') return false
      master.addClash(clash)
      if (isProven() || isOver(options)) return false
    }
    return false
  }

  if (isProven()) return { answer, value: valueOf(answer), bound }
  for (const effort of hand.isAll ? [0] : [someEffort, mostEffort]) {
    // oxlint-disable-next-line no-await-in-loop -- more effort only where less did not do
    const relaxed = await relaxedBound(hand, effort, (least, value) => {
      bound = Math.max(bound, rounded(least))
      // Neither can a bound be better than the value it comes to in the end.
      return isProven() || (isWhole && bound >= rounded(value))
    })
    bound = Math.max(bound, rounded(relaxed.bound))
    if (isProven() || isOver(options)) break
    // What loads in part come to, those in whole do not come below: then only the bound is left to find.
    if (isWhole && !hand.isAll && rounded(relaxed.value) >= valueOf(best) - nothing) continue
    // oxlint-disable-next-line no-await-in-loop -- the bound found above decides what is asked
    const isOptimal = await inWhole()
    if (hand.isAll && isOptimal) bound = valueOf(best)
    if (isProven() || isOver(options)) break
    if (!relaxed.prices) continue
    // What is better leaves a smaller gap, and fewer loads within it.
    for (let before = Infinity; valueOf(best) < before && !isProven() && !isOver(options); ) {
      before = valueOf(best)
      const gap = before - relaxed.bound - (isWhole ? 1 - slackOfWhole : 0)
      const isComplete = addWithin(hand, relaxed.prices, gap)
      // oxlint-disable-next-line no-await-in-loop -- each gap hangs on the one before
      if ((await inWhole()) && isComplete) bound = valueOf(best)
    }
    break
  }
  return { answer: best, value: valueOf(best), bound: Math.min(bound, valueOf(best)) }
}

interface RelaxedBound {
  readonly bound: number
  /** Of the loads there are, used in part; Infinity where that was not found. */
  readonly value: number
  /** Null where the looking for loads did not come to its end. */
  readonly prices: MasterPrices | null
}

/**
 * The value of a level with loads used in part, which nothing in whole loads can be below.
 *
 * @param most - loads looked at for one kind in one round, at most
 * @param isEnough - told of each bound and of the value so far, which only falls; true ends the search
 */
const relaxedBound = async (
  hand: LevelAtHand,
  most: number,
  isEnough: (bound: number, value: number) => boolean,
): Promise<RelaxedBound> => {
  const { problem, master, level, fixed, options } = hand
  let bound = -Infinity
  let effort = leastEffort
  let before = Infinity
  let basis: LinearBasis | null = null
  for (;;) {
    const left = options.left_s()
    // Each round hangs on the one before.
    // oxlint-disable-next-line no-await-in-loop
    const answer: LinearAnswer = await options.solver({
      model: master.model(level, fixed),
      relaxed: true,
      ...(basis && { basis }),
      ...(left < Infinity && { limit_s: left }),
    })
    const { value, rowDual } = answer
    if (!rowDual) return { bound, value: Infinity, prices: null }
    if (hand.isAll) return { bound: value, value, prices: null }
    basis = answer.basis
    const prices = master.prices(rowDual, fixed)
    let isNew = false
    let below = value
    let isComplete = true
    for (const [kind, { count }] of problem.kinds.entries()) {
      const wish = { below: -nothing, most: perRound, effort, isOver: () => isOver(options) }
      const { found, least, complete } = search(hand, prices, kind, wish)
      isComplete &&= complete
      below += count * Math.min(0, least)
      for (const { load, cost } of found) isNew = master.add({ kind, load, cost }) || isNew
    }
    // Lagrange's bound: at these prices no reel in use can gain more than the best load of its kind.
    bound = Math.max(bound, isComplete && !isNew ? value : below)
    if (isComplete && !isNew) return { bound, value, prices }
    if (isEnough(bound, value) || isOver(options)) return { bound, value, prices: null }
    // Where prices hardly move any more, what is left open is left open by looking too little.
    const isStill = !isComplete && before - value < stillShare * Math.max(1, Math.abs(value))
    before = value
    if (isNew && !(isStill && effort < most)) continue
    if (effort >= most) return { bound, value, prices: null }
    effort *= 10
  }
}

/** Writes down every load that a gap leaves room for, or of too many the best; false then. */
const addWithin = (hand: LevelAtHand, prices: MasterPrices, gap: number): boolean => {
  const { problem, master, options } = hand
  let isComplete = true
  const all = [...problem.kinds.keys()].flatMap((kind) => {
    const { found, complete } = search(hand, prices, kind, {
      below: gap + nothing,
      most: manyLoads + 1,
      effort: mostEffort,
      isOver: () => isOver(options),
    })
    isComplete &&= complete
    return found.map(({ load, cost, reduced }) => ({ kind, load, cost, reduced }))
  })
  const best = all.toSorted((a, b) => a.reduced - b.reduced).slice(0, manyLoads)
  for (const { kind, load, cost } of best) master.add({ kind, load, cost })
  return isComplete && all.length <= manyLoads
}

/** Looks for loads of a kind at the prices of a level. */
const search = (
  { problem, master, level: { level } }: LevelAtHand,
  prices: MasterPrices,
  place: number,
  wish: Pick<LoadWish, 'below' | 'most' | 'effort' | 'isOver'>,
): LoadsFound => {
  const kind = problem.kinds[place]!
  const inClashes = master.costInClashes(prices)
  const priceOf = (at: LoadLevel): number =>
    prices.levels[loadLevels.indexOf(at)]! + Number(at === level)
  const worth = kind.items.map((item) => {
    const [changes, different] = kind.itemCost(item)
    return prices.items[item]! - priceOf('changes') * changes - priceOf('different') * different
  })
  return searchLoads(problem, kind, {
    ...wish,
    worth,
    beside: inClashes && ((load) => inClashes(place, load)),
    fixed: prices.kinds[place]! + priceOf('opened') * kind.openedCost,
    stubs: priceOf('stubs'),
    swaps: priceOf('swaps'),
  })
}
