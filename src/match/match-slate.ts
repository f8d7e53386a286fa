import type { Choices } from './choice.ts'
import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import { fewerSwaps } from './fewer-swaps.ts'
import { firstPlan } from './first-plan.ts'
import type { LinearSolver } from './linear-solver.ts'
import { type LoadJudge, loadJudge } from './load-judge.ts'
import { problemLevels } from './load-master.ts'
import type { MatchPlan } from './match-plan.ts'
import { planOf } from './plan-of.ts'
import { comparePlans, levelsOf, loadCost, planValue } from './plan-value.ts'
import { orderPrinters } from './printer-order.ts'
import type { MatchSlate } from './slate.ts'
import { slateParts } from './slate-parts.ts'
import { type SlatePart, slateProblem } from './slate-problem.ts'
import { type SolvedLoads, solveLoads } from './solve-loads.ts'

/** How far a match has come. */
export interface MatchProgress {
  /** Share of the parts of the slate that are solved, 0 to 1. */
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

/** A way to match: `matchSlate` with its options settled, here or in a thread. */
export type Matcher = (slate: MatchSlate) => Promise<MatchPlan>

/** The choices so far, and the least value of each level that is proven. */
interface Sofar {
  readonly choices: Choices
  readonly bounds: readonly number[]
}

/**
 * Which reel for which print: a plan by rules of thumb first, then each part of the slate that has
 * nothing to do with the others made better, level by level, and proven best as far as time goes. Every
 * plan it returns or tells of is reckoned anew from its choices and safe by the verdict's own rules.
 *
 * @throws DomainError as `compileSlate`
 * @see docs/method/match.md
 */
export const matchSlate = async (
  slate: MatchSlate,
  options: MatchOptions = {},
): Promise<MatchPlan> => {
  const { solver, clock, limit_ms = 10_000, isCancelled = () => false, progress } = options
  const compiled = compileSlate(slate)
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  const ends = clock ? clock() + limit_ms : Infinity
  const left_s = (): number => (clock ? (ends - clock()) / 1000 : Infinity)
  const planSofar = ({ choices, bounds }: Sofar, ended: MatchPlan['ended']): MatchPlan =>
    planOf(compiled, judges, choices, bounds, ended)
  const parts = slateParts(compiled)
  let sofar: Sofar = {
    choices: fewerSwaps(compiled, judges, firstPlan(compiled, judges)),
    bounds: levelsOf(compiled).map(() => 0),
  }
  progress?.({ done: 0, plan: planSofar(sofar, 'done') })
  if (solver) {
    const bounds = levelsOf(compiled).map(({ level }) =>
      level === 'stubs' ? stubsAlone(compiled, judges) : 0,
    )
    for (const [i, part] of parts.entries()) {
      // What a part does not use of its share of the time is there for the rest.
      const until = left_s() - left_s() / (parts.length - i)
      // One after the other: the solver has one thread.
      // oxlint-disable-next-line no-await-in-loop
      const solved = await solvePart(compiled, judges, part, sofar.choices, {
        solver,
        left_s: () => left_s() - until,
        isCancelled,
      })
      for (const [at, bound] of solved.bounds.entries()) bounds[at]! += bound
      sofar = { choices: solved.choices, bounds: sofar.bounds }
      progress?.({ done: (i + 1) / parts.length, plan: planSofar(sofar, 'done') })
    }
    sofar = { ...sofar, bounds }
  }
  const isOut = left_s() <= 0
  return planSofar(sofar, isCancelled() ? 'cancelled' : isOut ? 'time' : 'done')
}

/** What reels left alone add to the stubs, g. */
const stubsAlone = (slate: CompiledSlate, judges: readonly LoadJudge[]): number =>
  slate.reels.reduce((sum, _, reel) => sum + loadCost(slate, judges[reel]!, reel, []).stubs, 0)

/** Solves one part; the bounds are by `levelsOf`, without what reels left alone add. */
const solvePart = async (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  part: SlatePart,
  choices: Choices,
  options: Parameters<typeof solveLoads>[2],
): Promise<Sofar> => {
  const own = new Set(part.copies)
  const before = choices.map((choice, copy) => (own.has(copy) ? choice : null))
  const hasParts = before.some((choice) => choice?.servings.some(({ piece }) => piece.from > 0))
  const mayChange = part.copies.some((copy) =>
    slate.copies[copy]!.tasks.some(({ mostChanges }) => mostChanges > 0),
  )
  // Changes in mid-print are looked at only where not everything is served without.
  const whole = before.map((choice) =>
    choice?.servings.some(({ piece }) => piece.place >= slate.wholes) ? null : choice,
  )
  let { solved, stated } = await solveWith(slate, judges, part, whole, false, options)
  const isShort = stated.problem.importances.some((_, i) => solved.values[i]! > 0)
  if (mayChange && isShort) {
    const found = stated.choicesOf(solved.answer)
    const better =
      hasParts &&
      comparePlans(planValue(slate, judges, before), planValue(slate, judges, found)) < 0
    ;({ solved, stated } = await solveWith(
      slate,
      judges,
      part,
      better ? before : found,
      true,
      options,
    ))
  }
  const found = fewerSwaps(slate, judges, stated.choicesOf(solved.answer))
  const merged = choices.map((choice, copy) => (own.has(copy) ? found[copy]! : choice))
  const isBetter =
    comparePlans(planValue(slate, judges, merged), planValue(slate, judges, choices)) < 0
  const at = problemLevels(stated.problem)
  const bounds = levelsOf(slate).map(({ level, importance }) => {
    const place = at.findIndex(
      (each) =>
        each.level === level && (each.level !== 'unserved' || each.importance === importance),
    )
    return place < 0 ? 0 : solved.bounds[place]!
  })
  return { choices: isBetter ? merged : choices, bounds }
}

const solveWith = async (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  part: SlatePart,
  start: Choices,
  withParts: boolean,
  options: Parameters<typeof solveLoads>[2],
): Promise<{ solved: SolvedLoads; stated: ReturnType<typeof slateProblem> }> => {
  const stated = slateProblem(slate, judges, part, withParts)
  const begun = stated.answerOf(start, orderPrinters(slate, start))
  return { solved: await solveLoads(stated.problem, begun, options), stated }
}
