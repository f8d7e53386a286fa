import type { Choice, Serving } from '../../src/match/choice.ts'
import { loadsOf } from '../../src/match/choice.ts'
import {
  type CompiledCopy,
  type CompiledSlate,
  compileSlate,
} from '../../src/match/compiled-slate.ts'
import type { MatchSlate } from '../../src/match/index.ts'
import { type Load, loadJudge } from '../../src/match/load-judge.ts'
import { comparePlans, type LoadCost, levelsOf, loadCost } from '../../src/match/plan-value.ts'

/** Every way to serve a copy, whatever else is asked of the reels. */
const waysOf = (slate: CompiledSlate, copy: CompiledCopy): readonly Choice[] =>
  copy.printers.flatMap((printer) => {
    let ways: readonly (readonly Serving[])[] = [[]]
    for (const { place, nodes, mostChanges } of copy.tasks) {
      const last = nodes.length - 1
      const pieces = slate.piecesOf(place).filter((piece) => piece.printer === printer)
      const chains = (from: number, before: readonly Serving[]): readonly (readonly Serving[])[] =>
        pieces
          .filter((piece) => piece.from === from)
          .flatMap((piece) =>
            piece.reels
              .filter((reel) => !before.some((one) => one.reel === reel))
              .flatMap((reel) => {
                const servings = [...before, { piece, reel }]
                const own = servings.filter((one) => one.piece.task === place).length
                if (own > mostChanges + 1) return []
                return piece.to === last ? [servings] : chains(piece.to, servings)
              }),
          )
      ways = ways.flatMap((before) => chains(0, before))
    }
    return ways.map((servings) => ({ printer, servings }))
  })

/** Which reel is on, by printer and tool. */
type ReelsOn = Readonly<Record<string, number>>

/** What a printer or a reel is and does while a sequence goes on. */
interface Bench {
  readonly printers: readonly number[]
  readonly reels: readonly number[]
  readonly on: ReelsOn
  readonly late: number
  readonly swaps: number
}

/**
 * The fewest late copies, and then the fewest reels put on, of all sequences of the copies over all printers:
 * in a sequence each begins as soon as its printer, and each of its reels, is free, and has them till its end.
 *
 * @param hasWaits - false to let a reel be on several printers at once
 */
export const bestTimes = (
  { copies, printers, reels }: CompiledSlate,
  choices: readonly (Choice | null)[],
  hasWaits = true,
): { readonly late: number; readonly swaps: number } => {
  /** With a reel on that leaves where it was; what was there comes off. */
  const puttingOn = (on: ReelsOn, reel: number, at: string): ReelsOn => {
    const others = Object.entries(on).filter(([, each]) => !hasWaits || each !== reel)
    return { ...Object.fromEntries(others), [at]: reel }
  }
  let best = { late: Infinity, swaps: Infinity }
  const look = (bench: Bench, left: readonly number[]): void => {
    if (left.length === 0) {
      const isBetter = bench.late - best.late || bench.swaps - best.swaps
      if (isBetter < 0) best = { late: bench.late, swaps: bench.swaps }
    }
    for (const copy of left) {
      const { printer, servings } = choices[copy]!
      const { tasks, due_h, duration_h } = copies[copy]!
      const needed = new Set(servings.map(({ reel }) => reel))
      const begin = Math.max(
        bench.printers[printer]!,
        ...(hasWaits ? [...needed].map((reel) => bench.reels[reel]!) : []),
      )
      const end = begin + (duration_h ?? 0)
      let { on, swaps } = bench
      for (const { place, tool } of tasks) {
        const at = `${printer} ${tool}`
        const [first, ...brought] = servings.filter(({ piece }) => piece.task === place)
        if (on[at] !== first!.reel) swaps++
        // A change in mid-print puts a reel on, too, and is counted as a change.
        for (const { reel } of [first!, ...brought]) on = puttingOn(on, reel, at)
      }
      look(
        {
          printers: bench.printers.with(printer, end),
          reels: bench.reels.map((free, reel) => (needed.has(reel) ? end : free)),
          on,
          late: bench.late + (due_h !== null && end > due_h ? 1 : 0),
          swaps,
        },
        left.filter((each) => each !== copy),
      )
    }
  }
  let on: ReelsOn = {}
  for (const [printer, { loaded = {} }] of printers.entries()) {
    for (const [tool, id] of Object.entries(loaded)) {
      const reel = reels.findIndex((each) => each.id === id)
      on = puttingOn(on, reel, `${printer} ${tool}`)
    }
  }
  const start: Bench = {
    printers: printers.map(({ free_h = 0 }) => free_h),
    // What is on a printer that is at work comes off when that is done.
    reels: reels.map(({ id }) =>
      Math.max(
        0,
        ...printers
          .filter(({ loaded = {} }) => Object.values(loaded).includes(id))
          .map(({ free_h = 0 }) => free_h),
      ),
    ),
    on,
    late: 0,
    swaps: 0,
  }
  look(
    start,
    copies.flatMap(({ place }) => (choices[place] ? [place] : [])),
  )
  return best
}

/** The best of every plan there is, level by level. */
export interface BestPlan {
  readonly value: readonly number[]
  /** Plans there are, those with it that ask too much of a reel. */
  readonly plans: number
  /** Those of them whose levels were all reckoned. */
  readonly reckoned: number
}

/**
 * The best plan by looking at every one there is: what the match is held against.
 *
 * @param isCut - false to go on even where what is chosen so far can only become worse than the best plan
 *   seen; unless given, such plans are passed over
 * @param hasWaits - false to let a reel be on several printers at once
 * @param isKept - of which choices a plan may be made; of any unless given
 */
export const bestOfEveryPlan = (
  asked: MatchSlate,
  {
    isCut = true,
    hasWaits = true,
    isKept = () => true,
  }: {
    readonly isCut?: boolean
    readonly hasWaits?: boolean
    readonly isKept?: (choice: Choice, copy: CompiledCopy, slate: CompiledSlate) => boolean
  } = {},
): BestPlan => {
  const slate = compileSlate(asked)
  const levels = levelsOf(slate)
  const judges = slate.reels.map((_, reel) => loadJudge(slate, reel))
  // What is best is more often among plans that leave nothing out.
  const ways = slate.copies.map((copy): readonly (Choice | null)[] => [
    ...waysOf(slate, copy).filter((way) => isKept(way, copy, slate)),
    null,
  ])
  const judged = judges.map(() => new Map<string, LoadCost | null>())
  /** What a load costs; null for one that is not safe. */
  const costOf = (reel: number, load: Load): LoadCost | null => {
    const key = load.map(({ place }) => place).join(' ')
    const known = judged[reel]!.get(key)
    if (known !== undefined) return known
    const judge = judges[reel]!
    const cost = judge.isSafe(load) ? loadCost(slate, judge, reel, load) : null
    judged[reel]!.set(key, cost)
    return cost
  }
  const choices: (Choice | null)[] = slate.copies.map(() => null)
  /** What the levels are at least with the choices of the first copies, however the rest are served. */
  const atLeast = (decided: number, costs: readonly LoadCost[]): readonly number[] =>
    levels.map(({ level, importance }) => {
      if (level === 'unserved') {
        const left = slate.copies.slice(0, decided).filter(({ place }) => choices[place] === null)
        return left.filter((copy) => copy.importance === importance).length
      }
      // More prints fill stubs up, and the order of all decides what is late and how often reels are put on.
      const isOpen = level === 'stubs' && decided < ways.length
      if (isOpen || level === 'late' || level === 'swaps') return 0
      return costs.reduce((sum, cost) => sum + cost[level], 0)
    })

  let best: readonly number[] | null = null
  let reckoned = 0
  const look = (copy: number): void => {
    const costs = loadsOf(choices, slate.reels.length).map((load, reel) => costOf(reel, load))
    // What is too much for a reel stays so, whatever comes.
    if (!costs.every((cost) => cost !== null)) return
    if (isCut && best && comparePlans(atLeast(copy, costs), best) > 0) return
    if (copy < ways.length) {
      for (const way of ways[copy]!) {
        choices[copy] = way
        look(copy + 1)
      }
      choices[copy] = null
      return
    }
    reckoned++
    const times = bestTimes(slate, choices, hasWaits)
    const value = atLeast(copy, costs).map((of, i) => {
      const { level } = levels[i]!
      return level === 'late' || level === 'swaps' ? times[level] : of
    })
    if (!best || comparePlans(value, best) < 0) best = value
  }
  look(0)
  const plans = ways.reduce((product, list) => product * list.length, 1)
  return { value: best!, plans, reckoned }
}
