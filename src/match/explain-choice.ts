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

/** The obvious other reel: the fullest that fits and does not feed the same print. */
interface OtherReel {
  readonly other: string
  /** True where one that does feed it holds more. */
  readonly isNext?: true
}

/** Why a reel does something and not the obvious other. */
export type ChoiceReason =
  | { readonly kind: 'locked' }
  /** No other fits. */
  | { readonly kind: 'only' }
  /** Each other that fits feeds another tool or part of the same copy. */
  | { readonly kind: 'same_print'; readonly others: readonly string[] }
  | (OtherReel & { readonly kind: 'forbidden' })
  /** Beside what it is asked to do, those copies, it would last with this chance, and that is too little. */
  | (OtherReel & {
      readonly kind: 'would_not_last'
      readonly chance: number
      readonly copies: readonly string[]
    })
  /** The first level at which the plan would be worse with it, and by how much. */
  | (OtherReel & {
      readonly kind: 'worse'
      readonly level: 'late' | LoadLevel
      readonly by: number
    })
  /** The first level at which the plan would be better with it: the search ended before. */
  | (OtherReel & {
      readonly kind: 'better'
      readonly level: 'late' | LoadLevel
      readonly by: number
    })
  /** The plan that was kept has it so; with the other as much would be left in stubs, or so much less, g. */
  | (OtherReel & { readonly kind: 'kept'; readonly less: number })
  /** At no level worse; the other is then left with so much more for what comes, g. */
  | (OtherReel & { readonly kind: 'as_good'; readonly left: number })

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
      .fits.filter((id) => id !== duty.reel)
      .map((id) => reelAt.get(id)!)
    if (others.length === 0) return { kind: 'only' }
    // What does another part of the copy can not do this one as well.
    const isFree = (at: number): boolean => !loads[at]!.some(({ copy }) => copy === piece.copy)
    const holds = (at: number): number => judgeOf(at).left([]).value
    const [reel] = others.filter(isFree).toSorted((a, b) => holds(b) - holds(a))
    if (reel === undefined) {
      return { kind: 'same_print', others: others.map((at) => compiled.reels[at]!.id) }
    }
    const isNext = others.some((at) => !isFree(at) && holds(at) > holds(reel))
    const other = { other: compiled.reels[reel]!.id, ...(isNext && { isNext }) }
    const isBarred = slate.barred?.some(
      (bar) => bar.reel === other.other && (bar.copy === undefined || bar.copy === duty.copy),
    )
    if (isBarred === true) return { kind: 'forbidden', ...other }
    const load = [...loads[reel]!, piece]
    const chance = judgeOf(reel).chance(load)
    if (chance < askedOf(load)) {
      const copies = [...new Set(loads[reel]!.map(({ copy }) => compiled.copies[copy]!.id))]
      return { kind: 'would_not_last', ...other, chance, copies }
    }
    const lateBy = lateWith(piece, reel)
    if (lateBy !== 0) {
      return {
        kind: lateBy > 0 ? 'worse' : 'better',
        ...other,
        level: 'late',
        by: Math.abs(lateBy),
      }
    }
    const rest = loads[own]!.filter((each) => each !== piece)
    const [before, then] = [
      [costOf(own), costOf(reel)],
      [costOf(own, rest), costOf(reel, load)],
    ]
    let isKept = false
    for (const level of loadLevels) {
      const by = then.reduce((sum, cost, i) => sum + cost[level] - before[i]![level], 0)
      if (Math.abs(by) <= none) continue
      if (level === 'different' && by > 0) isKept = true
      else if (by > 0) return { kind: 'worse', ...other, level, by }
      // What is put on hangs on the order of the prints as well: fewer here may be as many in the end.
      else if (level === 'swaps') break
      else if (isKept) return { kind: 'kept', ...other, less: -by }
      else return { kind: 'better', ...other, level, by: -by }
    }
    return isKept
      ? { kind: 'kept', ...other, less: 0 }
      : { kind: 'as_good', ...other, left: before[1]!.left }
  }
}
