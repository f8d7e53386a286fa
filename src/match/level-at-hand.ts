import type { LinearSolver } from './linear-solver.ts'
import type { LoadMaster } from './load-master.ts'
import type { LoadAnswer, LoadProblem, SettledAnswer } from './load-problem.ts'
import { type FixedLevel, type ProblemLevel, slackOfFixed, valueAt } from './problem-level.ts'

/** How to solve a problem. */
export interface SolveOptions {
  readonly solver: LinearSolver
  /** Seconds left; Infinity without a limit. */
  readonly left_s: () => number
  readonly isCancelled: () => boolean
  /**
   * What is known of the first levels from elsewhere: bounds that nothing is below that is as good at the levels
   * before as these values.
   */
  readonly known?: { readonly values: readonly number[]; readonly bounds: readonly number[] }
  /** Called with each better answer. */
  readonly better?: (answer: LoadAnswer) => void
  /** Only the levels before this one; all unless given. */
  readonly until?: ProblemLevel['level']
  /** An answer that is better, or as good at every level: asked before a level that is not proven. */
  readonly rebuilt?: (answer: LoadAnswer) => LoadAnswer
}

/** One level of a problem, the levels before it fixed. */
export interface LevelAtHand {
  readonly problem: LoadProblem
  readonly master: LoadMaster
  readonly level: ProblemLevel
  readonly fixed: readonly FixedLevel[]
  /** Whether all loads there are stand in the program. */
  readonly isAll: boolean
  readonly options: SolveOptions
}

/** The best answer of a level, and what it can not be below. */
export interface SolvedLevel {
  readonly answer: LoadAnswer
  readonly value: number
  readonly bound: number
}

export const isOver = ({ left_s, isCancelled }: SolveOptions): boolean =>
  left_s() <= 0 || isCancelled()

/** With half of the time that is left. */
export const inHalf = (options: SolveOptions): SolveOptions => {
  const until = options.left_s() / 2
  return { ...options, left_s: () => options.left_s() - until }
}

/** Whether an answer leaves the levels before as they are. */
export const keepsLevels = (
  problem: LoadProblem,
  fixed: readonly FixedLevel[],
  answer: LoadAnswer,
): boolean =>
  fixed.every(({ level, most }) => valueAt(problem, answer, level) <= most + slackOfFixed)

/** An answer held against the clock, where that matters. */
export const settledBy = ({ settled }: LoadProblem, answer: LoadAnswer): SettledAnswer =>
  settled?.(answer) ?? { answer, clash: null }

/** Whole numbers are proven up to this. */
export const slackOfWhole = 1e-4
