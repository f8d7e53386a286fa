import type { Choices } from './choice.ts'
import { type CompiledSlate, isWhole } from './compiled-slate.ts'
import type { SolveOptions } from './level-at-hand.ts'
import type { LoadJudge } from './load-judge.ts'
import type { LoadAnswer } from './load-problem.ts'
import { type ProblemLevel, problemLevels, valueAt } from './problem-level.ts'
import { rebuiltPlan } from './rebuilt-plan.ts'
import type { LoadMaker } from './reel-load.ts'
import { type SlatePart, slateProblem } from './slate-problem.ts'
import { leastOf, solveLoads } from './solve-loads.ts'

/** A part of a slate, and what knows its reels. */
export interface PartStated {
  /** The cuts of its tasks are where the problem has prints changed. */
  readonly slate: CompiledSlate
  readonly judges: readonly LoadJudge[]
  readonly maker: LoadMaker
  readonly part: SlatePart
}

/** How a part is to be stated. */
export interface Stating extends PartStated {
  /** Whether prints that may be changed are looked at in parts, too. */
  readonly withParts: boolean
  /** The slate with the cuts at which copies may be put back that were taken out; `slate` unless given. */
  readonly rebuiltOn?: CompiledSlate
}

/** What a problem of loads came to, as choices. */
export interface SolvedStated {
  /** Null for copies of other parts. Where cuts are left open the pieces are what has to be done at least. */
  readonly choices: Choices
  readonly levels: readonly ProblemLevel[]
  /** By level, as far as was asked; what reels left alone add is not counted. */
  readonly values: readonly number[]
  readonly bounds: readonly number[]
  /** Of every level: the value of what it began with, and the least there can be. */
  readonly before: readonly number[]
  readonly least: readonly number[]
}

/** How often copies are taken out and put back before a level, beginning with what the level before found. */
const roundsOfLevel = 100

/**
 * Solves a part as a problem of loads.
 *
 * @param start - choices to begin with, changed only within the cuts
 */
export const solveStated = async (
  { slate, judges, maker, part, withParts, rebuiltOn = slate }: Stating,
  start: Choices,
  options: SolveOptions,
): Promise<SolvedStated> => {
  const { problem, answerOf, choicesOf } = slateProblem(slate, judges, part, withParts)
  const isOver = (): boolean => options.left_s() <= 0 || options.isCancelled()
  const rebuilt = (answer: LoadAnswer): LoadAnswer => {
    const made = rebuiltPlan(rebuiltOn, maker, choicesOf(answer), {
      copies: part.copies,
      rounds: roundsOfLevel,
      isOver,
      changes: withParts,
    })
    return answerOf(withParts ? made : onlyWhole(slate, made))
  }
  const begun = answerOf(start)
  const levels = problemLevels(problem)
  const { answer, values, bounds } = await solveLoads(problem, begun, { ...options, rebuilt })
  return {
    choices: choicesOf(answer),
    levels,
    values,
    bounds,
    before: levels.map((level) => valueAt(problem, begun, level)),
    least: levels.map((level) => leastOf(problem, level)),
  }
}

/** Without what is changed in mid-print. */
export const onlyWhole = (slate: CompiledSlate, choices: Choices): Choices =>
  choices.map((choice) =>
    choice?.servings.some(({ piece }) => !isWhole(slate, piece)) ? null : choice,
  )
