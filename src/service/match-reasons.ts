import { type ChoiceReason, type Duty, explainChoice, type MatchPlan } from '../match/index.ts'
import { formatChance, formatCount } from '../units/index.ts'
import { andList } from './and-list.ts'
import type { MatchQuestion } from './match-question.ts'

/** Why a duty has its reel and not the obvious other, in words. */
export const reasonsOf = (
  { slate, copies }: MatchQuestion,
  plan: MatchPlan,
): ((duty: Duty) => string) => {
  const why = explainChoice(slate, plan)
  const namesOf = (ids: readonly string[]): string =>
    [...new Set(ids.map((id) => copies.get(id)!.row.name))].slice(0, 3).join(', ')
  return (duty) => {
    const wants = copies.get(duty.copy)!.row.tools?.find(({ tool }) => tool === duty.tool)
    const reason = why(duty)
    return reason.kind === 'only' && wants?.reel !== undefined
      ? 'The print is to be fed from it only.'
      : inWords(reason, duty.reel, namesOf)
  }
}

const inWords = (
  reason: ChoiceReason,
  reel: string,
  namesOf: (ids: readonly string[]) => string,
): string => {
  if (reason.kind === 'locked') return 'You locked it.'
  if (reason.kind === 'only') return 'It is the only reel that fits.'
  if (reason.kind === 'same_print') {
    return reason.others.length === 1
      ? `The other that fits, ${reason.others.join('')}, feeds this print already.`
      : `The others that fit, ${andList(reason.others)}, feed this print already.`
  }
  const other = reason.isNext
    ? `${reason.other}, the fullest that does not feed this print already,`
    : `${reason.other}, the fullest other,`
  if (reason.kind === 'forbidden') return `${other} is forbidden.`
  if (reason.kind === 'kept') {
    return reason.less === 0
      ? `${other} would do as well; the plan that was kept has ${reel}.`
      : `With ${other} ${Math.round(reason.less)} g less would be left in stubs; but the plan that was kept has ${reel}.`
  }
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
  return `With ${other} there would be ${formatCount(by, 'more change')} in mid-print.`
}
