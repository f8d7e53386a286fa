import {
  isOver,
  type LevelAtHand,
  type SolvedLevel,
  type SolveOptions,
  slackOfWhole,
} from './level-at-hand.ts'
import type { ItemLoad, LoadAnswer, LoadKind, LoadProblem } from './load-problem.ts'
import { type FixedLevel, slackOfFixed, valueAt } from './problem-level.ts'
import { ReelProgram } from './reel-program.ts'

/** How often at most a program is asked again with more said in it. */
const mostRounds = 200

/** What swaps can not be below, by the program of reels that do items in part. */
export const leastSwaps = async (
  problem: LoadProblem,
  fixed: readonly FixedLevel[],
  { solver, left_s }: SolveOptions,
): Promise<number> => {
  const left = left_s()
  const { bound } = await solver({
    model: new ReelProgram(problem, fixed).model(Infinity),
    relaxed: true,
    ...(left < Infinity && { limit_s: left }),
  })
  return Math.max(0, Math.ceil(bound - slackOfWhole))
}

/**
 * The level of swaps: the program of reels is asked for an answer with fewer than the best has. Where there
 * is none the best is proven. What it answers is looked at: loads that are not safe are forbidden, and
 * swaps that the order along a printer needs beyond those of the loads are stated for just these loads,
 * until an answer keeps what it promises.
 */
export const solveSwaps = async (
  { problem, fixed, level, options }: LevelAtHand,
  answer: LoadAnswer,
  atLeast: number,
): Promise<SolvedLevel> => {
  const swapsOf = (of: LoadAnswer): number =>
    problem.moreSwaps(of).reduce((sum, { more }) => sum + more, valueAt(problem, of, level))
  const isKept = (of: LoadAnswer): boolean =>
    fixed.every(({ level: at, most }) => valueAt(problem, of, at) <= most + slackOfFixed)
  let best = answer
  let value = swapsOf(answer)
  let bound = atLeast
  const program = new ReelProgram(problem, fixed)
  for (let round = 0; round < mostRounds && value > bound && !isOver(options); round++) {
    const left = options.left_s()
    // Each round hangs on the one before.
    // oxlint-disable-next-line no-await-in-loop
    const { columns, status, ...solved } = await options.solver({
      model: program.model(value - 1),
      ...(left < Infinity && { limit_s: left }),
    })
    if (status === 'infeasible') bound = value
    else bound = Math.max(bound, Math.ceil(solved.bound - slackOfWhole))
    if (!columns) break
    const found = program.answerOf(columns)
    const unsafe = found.loads.filter(({ kind, load }) => !problem.kinds[kind]!.isSafe(load))
    const isForbidden = unsafe.map(({ kind, load }) =>
      program.forbid(kind, unsafePart(problem.kinds[kind]!, load)),
    )
    if (isForbidden.length > 0) {
      if (isForbidden.includes(false)) break
      continue
    }
    if (!isKept(found)) break
    const reached = swapsOf(found)
    if (reached < value) {
      best = found
      value = reached
      options.better?.(found)
      continue
    }
    const isStated = problem
      .moreSwaps(found)
      .map(({ printer, more, isLeast }) => isLeast && program.addTogether(columns, printer, more))
    if (!isStated.includes(true)) break
  }
  return { answer: best, value, bound: Math.min(bound, value) }
}

/** As little of a load as is not safe either. */
const unsafePart = (kind: LoadKind, load: ItemLoad): ItemLoad => {
  const weightOf = (item: number): number => kind.weights[kind.items.indexOf(item)]!
  let part = load
  // What weighs least is spared first, so that few of the heavy ones are left.
  for (const item of load.toSorted((a, b) => weightOf(a) - weightOf(b))) {
    const rest = part.toSpliced(part.indexOf(item), 1)
    if (rest.length > 0 && !kind.isSafe(rest)) part = rest
  }
  return part
}
