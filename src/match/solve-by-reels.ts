import {
  isOver,
  keepsLevels,
  type LevelAtHand,
  type SolvedLevel,
  type SolveOptions,
  settledBy,
  slackOfWhole,
} from './level-at-hand.ts'
import type { ItemLoad, LoadAnswer, LoadKind, LoadProblem } from './load-problem.ts'
import { type FixedLevel, type ProblemLevel, valueAt } from './problem-level.ts'
import { ReelProgram } from './reel-program.ts'

/** How often at most a program is asked again with more said in it. */
const mostRounds = 200

/** What a level can not be below, by the program of reels that do items in part. */
export const leastByReels = async (
  problem: LoadProblem,
  level: ProblemLevel,
  fixed: readonly FixedLevel[],
  { solver, left_s }: SolveOptions,
): Promise<number> => {
  const left = left_s()
  const { bound } = await solver({
    model: new ReelProgram(problem, level, fixed).model(Infinity),
    relaxed: true,
    ...(left < Infinity && { limit_s: left }),
  })
  return Math.max(0, Math.ceil(bound - slackOfWhole))
}

/**
 * A level of late copies or swaps: the program of reels is asked for an answer with fewer than the best has.
 * Where there is none the best is proven. What it answers is looked at: loads that are not safe are forbidden,
 * so is what can not be in time together, and swaps that the order along a printer needs beyond those of the
 * loads are stated for just these loads, until an answer keeps what it promises.
 */
export const solveByReels = async (
  { problem, fixed, level, options }: LevelAtHand,
  answer: LoadAnswer,
  atLeast: number,
): Promise<SolvedLevel> => {
  const isSwaps = level.level === 'swaps'
  const valueOf = (of: LoadAnswer): number => {
    const value = valueAt(problem, of, level)
    return isSwaps ? value + problem.moreSwaps(of) : value
  }
  let best = answer
  let value = valueOf(answer)
  let bound = atLeast
  if (value <= bound) return { answer, value, bound: value }
  const program = new ReelProgram(problem, level, fixed)
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
    const { answer: settled, clash } = settledBy(problem, found)
    const isKept = keepsLevels(problem, fixed, settled)
    const reached = valueOf(settled)
    if (isKept && reached < value) {
      best = settled
      value = reached
      options.better?.(settled)
      continue
    }
    if (clash !== null && clash !== 'unknown') {
      program.addClash(clash)
      continue
    }
    if (!isSwaps || !isKept) break
    const isStated = problem
      .whyMoreSwaps(settled)
      .map(({ groups, more }) => program.addTogether(columns, groups, more))
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
