import { solveChanged } from './changed-part.ts'
import { type ChoicePlaces, type Choices, choicesAt, placesOf } from './choice.ts'
import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import type { SolveOptions } from './level-at-hand.ts'
import type { LinearSolver } from './linear-solver.ts'
import { type LoadJudge, loadJudge } from './load-judge.ts'
import { comparePlans, levelsOf, planValue } from './plan-value.ts'
import { type LoadMaker, loadMaker } from './reel-load.ts'
import type { MatchSlate } from './slate.ts'
import { slateParts } from './slate-parts.ts'
import type { SlatePart } from './slate-problem.ts'
import { onlyWhole, type PartStated, solveStated } from './solve-stated.ts'

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
  const mayChange = part.copies.some((copy) =>
    slate.copies[copy]!.tasks.some(({ mostChanges }) => mostChanges > 0),
  )
  const stated: PartStated = { slate, judges, maker, part }
  let solved = await solveStated({ ...stated, withParts: false }, onlyWhole(slate, before), options)
  const { levels } = solved
  // No changes are the fewest: they are looked at only where a level before them could be better.
  const earlier = levels.findIndex(({ level }) => level === 'changes')
  if (mayChange && solved.values.slice(0, earlier).some((value) => value > 0)) {
    const start = betterOf(slate, judges, before, solved.choices)
    solved = await solveChanged(stated, solved, start, options)
  }
  const merged = choices.map((choice, copy) => (own.has(copy) ? solved.choices[copy]! : choice))
  const bounds = levelsOf(slate).map(({ level, importance }) => {
    const place = levels.findIndex(
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
