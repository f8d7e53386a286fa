import { type Choices, choicesAt, placesOf } from './choice.ts'
import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import { firstPlan } from './first-plan.ts'
import type { LinearSolver } from './linear-solver.ts'
import { type LoadJudge, loadJudge } from './load-judge.ts'
import type { MatchPlan } from './match-plan.ts'
import { betterOf, compiledPartSolver, type PartSolver } from './part-solver.ts'
import { planOf } from './plan-of.ts'
import { levelsOf, loadCost } from './plan-value.ts'
import { rebuiltPlan } from './rebuilt-plan.ts'
import { loadMaker } from './reel-load.ts'
import type { MatchSlate } from './slate.ts'
import { slateParts } from './slate-parts.ts'

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
  /** In place of `solver`: solves parts of this slate elsewhere. */
  readonly solvePart?: PartSolver
  /** How many parts are solved at once; 1 unless given. */
  readonly atOnce?: number
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
  const { solver, solvePart, atOnce = 1, clock, limit_ms = 10_000, progress } = options
  const { isCancelled = () => false } = options
  const compiled = compileSlate(slate)
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  const maker = loadMaker(compiled, judges)
  const ends = clock ? clock() + limit_ms : Infinity
  const left_s = (): number => (clock ? (ends - clock()) / 1000 : Infinity)
  const planSofar = ({ choices, bounds }: Sofar, ended: MatchPlan['ended']): MatchPlan =>
    planOf(compiled, judges, choices, bounds, ended)
  const parts = slateParts(compiled)
  let sofar: Sofar = {
    choices: firstPlan(compiled, maker, isCancelled),
    bounds: levelsOf(compiled).map(() => 0),
  }
  progress?.({ done: 0, plan: planSofar(sofar, 'done') })
  // Seconds go to what can be better by far before they go to proofs.
  const isOver = (): boolean => left_s() <= 0 || isCancelled()
  let { choices: first } = sofar
  for (const { copies } of parts) {
    const rebuilt = rebuiltPlan(compiled, maker, first, {
      copies,
      rounds: roundsAtFirst,
      isOver,
      changes: true,
    })
    first = betterOf(compiled, judges, rebuilt, first)
  }
  sofar = { ...sofar, choices: first }
  progress?.({ done: 0, plan: planSofar(sofar, 'done') })
  const solve = solvePart ?? (solver && compiledPartSolver(compiled, judges, maker, solver))
  if (solve) {
    const bounds = levelsOf(compiled).map(({ level }) =>
      level === 'stubs' ? stubsAlone(compiled, judges) : 0,
    )
    const waiting = [...parts.keys()]
    let done = 0
    const inTurn = async (): Promise<void> => {
      for (;;) {
        if (isCancelled()) return
        const part = waiting.shift()
        if (part === undefined) return
        // What a part does not use of its share of the time is there for the rest.
        const until = left_s() - left_s() / Math.ceil((waiting.length + 1) / atOnce)
        // One after the other: this is one of the threads.
        // oxlint-disable-next-line no-await-in-loop
        const solved = await solve(part, placesOf(sofar.choices), {
          left_s: () => left_s() - until,
          isCancelled,
        })
        for (const [at, bound] of solved.bounds.entries()) bounds[at]! += bound
        const own = new Set(parts[part]!.copies)
        const found = choicesAt(compiled, solved.choices)
        const merged = sofar.choices.map((choice, copy) => (own.has(copy) ? found[copy]! : choice))
        sofar = { ...sofar, choices: betterOf(compiled, judges, merged, sofar.choices) }
        done++
        progress?.({ done: done / parts.length, plan: planSofar(sofar, 'done') })
      }
    }
    await Promise.all(Array.from({ length: Math.min(atOnce, parts.length) }, inTurn))
    // Of parts that were not begun nothing is proven.
    if (waiting.length === 0) sofar = { ...sofar, bounds }
  }
  const isOut = left_s() <= 0
  return planSofar(sofar, isCancelled() ? 'cancelled' : isOut ? 'time' : 'done')
}

/** What reels left alone add to the stubs, g. */
const stubsAlone = (slate: CompiledSlate, judges: readonly LoadJudge[]): number =>
  slate.reels.reduce((sum, _, reel) => sum + loadCost(slate, judges[reel]!, reel, []).stubs, 0)

/** How often copies of a part are taken out and put back before it is solved. */
const roundsAtFirst = 150
