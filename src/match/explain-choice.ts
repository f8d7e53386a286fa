import { DomainError } from '../units/index.ts'
import { type Choice, loadsOf } from './choice.ts'
import { compileSlate, type Piece } from './compiled-slate.ts'
import { askedOf, type LoadJudge, loadJudge } from './load-judge.ts'
import { type LoadLevel, loadLevels } from './load-problem.ts'
import type { Duty, MatchPlan } from './match-plan.ts'
import { choicesOfPlan, dutyPieces } from './plan-choices.ts'
import { loadCost } from './plan-value.ts'
import type { MatchSlate } from './slate.ts'
import { timetableOf } from './timetable.ts'

/** Why a reel does something and not the obvious other: of the reels that fit, the fullest. */
export type ChoiceReason =
  | { readonly kind: 'locked' }
  /** No other fits. */
  | { readonly kind: 'only' }
  | { readonly kind: 'forbidden'; readonly other: string }
  /** Beside what it is asked to do, those copies, it would last with this chance, and that is too little. */
  | {
      readonly kind: 'would_not_last'
      readonly other: string
      readonly chance: number
      readonly copies: readonly string[]
    }
  /** The first level at which the plan would be worse with it, and by how much. */
  | {
      readonly kind: 'worse'
      readonly other: string
      readonly level: 'late' | LoadLevel
      readonly by: number
    }
  /** The first level at which the plan would be better with it: the search ended before. */
  | {
      readonly kind: 'better'
      readonly other: string
      readonly level: 'late' | LoadLevel
      readonly by: number
    }
  /** At no level worse; the other is then left with so much more for what comes, g. */
  | { readonly kind: 'as_good'; readonly other: string; readonly left: number }

/** A difference of a level below this is none, g or a whole thing. */
const none = 0.05

/**
 * Explains the choices of a plan: what would have become worse with the obvious other, everything else
 * being as planned. What a plan with another choice would be as a whole, a lock tells.
 *
 * @param slate - that the plan is of
 * @returns throws DomainError `unknown_id` for a duty that is not the plan's
 */
export const explainChoice = (
  slate: MatchSlate,
  plan: MatchPlan,
): ((duty: Duty) => ChoiceReason) => {
  const compiled = compileSlate(slate)
  const choices = choicesOfPlan(compiled, plan)
  const loads = loadsOf(choices, compiled.reels.length)
  const isDue = compiled.copies.some(({ due_h }) => due_h !== null)
  const late = isDue ? timetableOf(compiled, choices).late.size : 0
  /** How many more are late, waiting, with another reel. */
  const lateWith = (piece: Piece, reel: number): number => {
    if (!isDue) return 0
    const { printer, servings } = choices[piece.copy]!
    const then: Choice = {
      printer,
      servings: servings.map((each) => (each.piece === piece ? { piece, reel } : each)),
    }
    return timetableOf(compiled, choices.with(piece.copy, then)).late.size - late
  }
  const pieceOf = dutyPieces(compiled, plan)
  const reelAt = new Map(compiled.reels.map(({ id }, place) => [id, place]))
  const judges = new Map<number, LoadJudge>()
  const judgeOf = (reel: number): LoadJudge => {
    const judge = judges.get(reel) ?? loadJudge(compiled, reel)
    judges.set(reel, judge)
    return judge
  }
  const costOf = (reel: number, load = loads[reel]!) =>
    loadCost(compiled, judgeOf(reel), reel, load)
  return (duty) => {
    const piece = pieceOf(duty)
    const own = reelAt.get(duty.reel)
    if (!piece || own === undefined || !loads[own]!.includes(piece)) {
      throw new DomainError('unknown_id', `the plan does not have ${duty.reel} do ${duty.copy}`)
    }
    const isLocked = slate.locks?.some(
      ({ copy, tool, reel }) => copy === duty.copy && tool === duty.tool && reel === duty.reel,
    )
    if (isLocked === true) return { kind: 'locked' }
    const { tasks } = slate.copies.find(({ id }) => id === duty.copy)!
    const others = tasks
      .find(({ tool }) => tool === duty.tool)!
      .fits.map((id) => reelAt.get(id)!)
      // What does another part of the copy can not do this one as well.
      .filter((reel) => !loads[reel]!.some(({ copy }) => copy === piece.copy))
      .map((reel) => ({ reel, holds: judgeOf(reel).left([]).value }))
    const [fullest] = others.toSorted((a, b) => b.holds - a.holds)
    if (!fullest) return { kind: 'only' }
    const { reel } = fullest
    const other = compiled.reels[reel]!.id
    const isBarred = slate.barred?.some(
      (bar) => bar.reel === other && (bar.copy === undefined || bar.copy === duty.copy),
    )
    if (isBarred === true) return { kind: 'forbidden', other }
    const load = [...loads[reel]!, piece]
    const chance = judgeOf(reel).chance(load)
    if (chance < askedOf(load)) {
      const copies = [...new Set(loads[reel]!.map(({ copy }) => compiled.copies[copy]!.id))]
      return { kind: 'would_not_last', other, chance, copies }
    }
    const lateBy = lateWith(piece, reel)
    if (lateBy !== 0) {
      return { kind: lateBy > 0 ? 'worse' : 'better', other, level: 'late', by: Math.abs(lateBy) }
    }
    const rest = loads[own]!.filter((each) => each !== piece)
    const [before, then] = [
      [costOf(own), costOf(reel)],
      [costOf(own, rest), costOf(reel, load)],
    ]
    for (const level of loadLevels) {
      const by = then.reduce((sum, cost, i) => sum + cost[level] - before[i]![level], 0)
      if (by > none) return { kind: 'worse', other, level, by }
      if (by >= -none) continue
      // What is put on hangs on the order of the prints as well: fewer here may be as many in the end.
      if (level === 'swaps') break
      return { kind: 'better', other, level, by: -by }
    }
    return { kind: 'as_good', other, left: before[1]!.left }
  }
}
