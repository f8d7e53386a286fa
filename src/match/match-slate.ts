import { compileSlate } from './compiled-slate.ts'
import { firstPlan } from './first-plan.ts'
import type { LinearSolver } from './linear-solver.ts'
import { loadJudge } from './load-judge.ts'
import type { MatchPlan } from './match-plan.ts'
import { planOf } from './plan-of.ts'
import { levelsOf } from './plan-value.ts'
import type { MatchSlate } from './slate.ts'

/** How far a match has come. */
export interface MatchProgress {
  /** 0 to 1. */
  readonly done: number
  /** The best plan so far. */
  readonly plan: MatchPlan
}

/** What a match may use. */
export interface MatchOptions {
  /** Without one the plan is put together by rules of thumb, and little of it is proven best. */
  readonly solver?: LinearSolver
  /** Milliseconds from any beginning; without it there is no time limit. */
  readonly clock?: () => number
  /** When to end with the best plan there is, ms from the beginning; 10 000 unless given. */
  readonly limit_ms?: number
  /** True when the person has had enough: the best plan so far is returned, marked so. */
  readonly isCancelled?: () => boolean
  readonly progress?: (progress: MatchProgress) => void
}

/**
 * Which reel for which print.
 *
 * @throws DomainError as `compileSlate`
 * @see docs/method/match.md
 */
export const matchSlate = async (
  slate: MatchSlate,
  options: MatchOptions = {},
): Promise<MatchPlan> => {
  const compiled = compileSlate(slate)
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  const choices = firstPlan(compiled, judges)
  const bounds = levelsOf(compiled).map(() => 0)
  const plan = planOf(compiled, judges, choices, bounds, 'done')
  options.progress?.({ done: 1, plan })
  return plan
}
