import { type ChoicePlaces, type Choices, choicesAt, placesOf } from './choice.ts'
import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import type { SolveOptions } from './level-at-hand.ts'
import type { LinearSolver } from './linear-solver.ts'
import { type LoadJudge, loadJudge } from './load-judge.ts'
import type { LoadAnswer } from './load-problem.ts'
import { comparePlans, levelsOf, planValue } from './plan-value.ts'
import { problemLevels } from './problem-level.ts'
import { rebuiltPlan } from './rebuilt-plan.ts'
import { type LoadMaker, loadMaker } from './reel-load.ts'
import type { MatchSlate } from './slate.ts'
import { slateParts } from './slate-parts.ts'
import { type SlatePart, slateProblem } from './slate-problem.ts'
import { type SolvedLoads, solveLoads } from './solve-loads.ts'

/** When to end with the best there is. */
export interface PartLimits {
  /** Seconds left; Infinity without a limit. */
  readonly left_s: () => number
  readonly isCancelled: () => boolean
}

/** A part solved. */
export interface SolvedPart {
  /** Of all copies; those of other parts as they were. */
  readonly choices: ChoicePlaces
  /** By the slate's levels, without what reels left alone add. */
  readonly bounds: readonly number[]
}

/** Solves one part of a slate, by its place among `slateParts`; in this thread or another. */
export type PartSolver = (
  part: number,
  sofar: ChoicePlaces,
  limits: PartLimits,
) => Promise<SolvedPart>

/**
 * A solver of the parts of one slate.
 *
 * @throws DomainError as `compileSlate`
 */
export const partSolver = (slate: MatchSlate, solver: LinearSolver): PartSolver => {
  const compiled = compileSlate(slate)
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  return compiledPartSolver(compiled, judges, loadMaker(compiled, judges), solver)
}

/** The same for a slate that is compiled already. */
export const compiledPartSolver = (
  compiled: CompiledSlate,
  judges: readonly LoadJudge[],
  maker: LoadMaker,
  solver: LinearSolver,
): PartSolver => {
  const parts = slateParts(compiled)
  return async (part, sofar, limits) => {
    const { choices, bounds } = await solvePart(
      compiled,
      judges,
      maker,
      parts[part]!,
      choicesAt(compiled, sofar),
      { solver, ...limits },
    )
    return { choices: placesOf(choices), bounds }
  }
}

/** Solves one part; the bounds are by `levelsOf`, without what reels left alone add. */
const solvePart = async (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  maker: LoadMaker,
  part: SlatePart,
  choices: Choices,
  options: SolveOptions,
): Promise<{ readonly choices: Choices; readonly bounds: readonly number[] }> => {
  const own = new Set(part.copies)
  const before = choices.map((choice, copy) => (own.has(copy) ? choice : null))
  const hasParts = before.some((choice) => choice?.servings.some(({ piece }) => piece.from > 0))
  const mayChange = part.copies.some((copy) =>
    slate.copies[copy]!.tasks.some(({ mostChanges }) => mostChanges > 0),
  )
  const whole = onlyWhole(slate, before)
  let { solved, stated } = await solveWith(slate, judges, maker, part, whole, false, options)
  // No changes are the fewest: they are looked at only where a level before them could be better.
  const earlier = problemLevels(stated.problem).findIndex(({ level }) => level === 'changes')
  if (mayChange && solved.values.slice(0, earlier).some((value) => value > 0)) {
    const found = stated.choicesOf(solved.answer)
    const better =
      hasParts &&
      comparePlans(planValue(slate, judges, before), planValue(slate, judges, found)) < 0
    const start = better ? before : found
    const ask = (from: Choices, more: Partial<SolveOptions>) =>
      solveWith(slate, judges, maker, part, from, true, { ...options, ...more })
    const first = await ask(start, { until: 'changes' })
    if (comparePlans(first.solved.values, solved.values.slice(0, earlier)) < 0) {
      const changed = first.stated.choicesOf(first.solved.answer)
      ;({ solved, stated } = await ask(changed, { known: first.solved }))
    } else {
      const later = solved.bounds.slice(earlier)
      solved = { ...solved, bounds: [...first.solved.bounds, ...later] }
    }
  }
  const found = stated.choicesOf(solved.answer)
  const merged = choices.map((choice, copy) => (own.has(copy) ? found[copy]! : choice))
  const at = problemLevels(stated.problem)
  const bounds = levelsOf(slate).map(({ level, importance }) => {
    const place = at.findIndex(
      (each) =>
        each.level === level && (each.level !== 'unserved' || each.importance === importance),
    )
    return place < 0 ? 0 : solved.bounds[place]!
  })
  return { choices: betterOf(slate, judges, merged, choices), bounds }
}

/** The better of two; the second where they are as good. */
export const betterOf = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  a: Choices,
  b: Choices,
): Choices => (comparePlans(planValue(slate, judges, a), planValue(slate, judges, b)) < 0 ? a : b)

/** How often copies are taken out and put back before a level, beginning with what the level before found. */
const roundsOfLevel = 100

/** Without what is changed in mid-print. */
const onlyWhole = (slate: CompiledSlate, choices: Choices): Choices =>
  choices.map((choice) =>
    choice?.servings.some(({ piece }) => piece.place >= slate.wholes) ? null : choice,
  )

const solveWith = async (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  maker: LoadMaker,
  part: SlatePart,
  start: Choices,
  withParts: boolean,
  options: SolveOptions,
): Promise<{ solved: SolvedLoads; stated: ReturnType<typeof slateProblem> }> => {
  const stated = slateProblem(slate, judges, part, withParts)
  const answerOf = (choices: Choices): LoadAnswer => stated.answerOf(choices)
  const isOver = (): boolean => options.left_s() <= 0 || options.isCancelled()
  const rebuilt = (answer: LoadAnswer): LoadAnswer => {
    const made = rebuiltPlan(slate, maker, stated.choicesOf(answer), {
      copies: part.copies,
      rounds: roundsOfLevel,
      isOver,
      changes: withParts,
    })
    return answerOf(withParts ? made : onlyWhole(slate, made))
  }
  const solved = await solveLoads(stated.problem, answerOf(start), { ...options, rebuilt })
  return { solved, stated }
}
