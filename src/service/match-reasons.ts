import { type ChoiceReason, type Duty, explainChoice, type MatchPlan } from '../match/index.ts'
import { formatChance, formatCount } from '../units/index.ts'
import type { MatchQuestion } from './match-question.ts'

/** Why a duty has its reel and not the obvious other, in words. */
export const reasonsOf = (
  { slate, copies }: MatchQuestion,
  plan: MatchPlan,
): ((duty: Duty) => string) => {
  const why = explainChoice(slate, plan)
  const namesOf = (ids: readonly string[]): string =>
    [...new Set(ids.map((id) => copies.get(id)!.row.name))].slice(0, 3).join(', ')
  return (duty) => inWords(why(duty), duty.reel, namesOf)
}

const inWords = (
  reason: ChoiceReason,
  reel: string,
  namesOf: (ids: readonly string[]) => string,
): string => {
  if (reason.kind === 'locked') return 'You locked it.'
  if (reason.kind === 'only') return 'It is the only reel that fits.'
  const other = `${reason.other}, the fullest other,`
  if (reason.kind === 'forbidden') return `${other} is forbidden.`
  if (reason.kind === 'would_not_last') {
    const lasts = `would last with ${formatChance(reason.chance)} only`
    return reason.copies.length === 0
      ? `${other} ${lasts}.`
      : `${other} does ${namesOf(reason.copies)} already; with this as well it ${lasts}.`
  }
  if (reason.kind === 'as_good') {
    return `${other} would do as well; so it keeps ${Math.round(reason.left)} g for what comes, and ${reel} is used up further.`
  }
  if (reason.kind === 'better') {
    return `With ${reason.other} it would be better: the search ended before.`
  }
  const by = Math.round(reason.by)
  if (reason.level === 'late') {
    return `With ${other} ${formatCount(by, 'more print')} would be late, waiting for it.`
  }
  if (reason.level === 'opened') return `${other} would have to be opened for it.`
  if (reason.level === 'stubs') return `With ${other} ${by} g more would be left in stubs.`
  if (reason.level === 'swaps') return `${other} would have to be put on for it.`
  if (reason.level === 'different') return `${other} is not what the plan that was kept has.`
  return `With ${other} there would be ${formatCount(by, 'more change')} in mid-print.`
}
