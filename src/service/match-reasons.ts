import type { Duty, MatchPlan } from '../match/index.ts'
import { formatChance } from '../units/index.ts'
import { chanceAt, leftOverAt, type WorkPart, workReckoner } from '../verdict/index.ts'
import type { MatchQuestion } from './match-question.ts'

/** What a reel is asked to do as the verdict reckons it. */
export type PartsOf = (duty: Duty) => WorkPart

/**
 * Why a duty has its reel and not the obvious other: of the reels that fit the tool, the fullest. What
 * would have become worse is reckoned with everything else as planned.
 */
export const reasonsOf = (
  question: MatchQuestion,
  plan: MatchPlan,
  duty: Duty,
  partOf: PartsOf,
): readonly string[] => {
  const { slate, reels } = question
  const copy = slate.copies.find(({ id }) => id === duty.copy)!
  const task = copy.tasks.find(({ tool }) => tool === duty.tool)!
  const lock = slate.locks?.find((each) => each.copy === duty.copy && each.tool === duty.tool)
  if (lock !== undefined) return ['You locked it.']
  const after = (id: string): MatchPlan['reels'][number] | undefined =>
    plan.reels.find(({ reel }) => reel === id)
  const others = task.fits.filter((id) => id !== duty.reel)
  if (others.length === 0) return ['It is the only reel that fits.']
  const obvious = others
    .map((id) => after(id)!)
    .toSorted((a, b) => b.before.value - a.before.value)[0]!
  const barred = slate.barred?.some(
    ({ reel, copy: of }) => reel === obvious.reel && (of === undefined || of === duty.copy),
  )
  if (barred === true) return [`${obvious.reel}, the fullest other, is forbidden.`]
  const sealed = slate.reels.find(({ id }) => id === obvious.reel)?.sealed === true
  const tails = Object.fromEntries(
    slate.printers.flatMap(({ id, tail_mm }) => (tail_mm ? [[id, tail_mm] as const] : [])),
  )
  const reckon = workReckoner(reels.get(obvious.reel)!.belief, tails)
  const own = partOf(duty)
  const { model, draw_mm } = reckon([...obvious.duties.map(partOf), own])
  const chance = chanceAt(model, draw_mm)
  const busyWith = obvious.duties.map((each) => question.copies.get(each.copy)!.row.name)
  const names = [...new Set(busyWith)].slice(0, 3).join(', ')
  if (chance < plan.confidence) {
    return [
      obvious.duties.length === 0
        ? `${obvious.reel}, the fullest other, would last with ${formatChance(chance)} only.`
        : `${obvious.reel}, the fullest other, does ${names} already; with this as well it would last with ${formatChance(chance)} only.`,
    ]
  }
  const mine = after(duty.reel)!
  if (sealed && obvious.duties.length === 0 && !mine.opened) {
    return [`${obvious.reel}, the fullest other, would have to be opened for it.`]
  }
  const left = leftOverAt(model, draw_mm)
  if (left.value > 0 && left.value < plan.useful_g && !mine.stub) {
    return [
      `${obvious.reel}, the fullest other, would end as a stub of ${Math.round(left.value)} g.`,
    ]
  }
  const without = reckonLeft(question, plan, duty, partOf)
  if (without > 0 && without < plan.useful_g && !mine.stub) {
    return [`Without it ${duty.reel} would stay behind as a stub of ${Math.round(without)} g.`]
  }
  return [
    `It uses ${duty.reel} up further and leaves ${obvious.reel}, the fullest other, at ${Math.round(obvious.left.value)} g for what comes.`,
  ]
}

/** What would be left on the duty's reel if it did not do this, g. */
const reckonLeft = (
  { reels }: MatchQuestion,
  plan: MatchPlan,
  duty: Duty,
  partOf: PartsOf,
): number => {
  const rest = plan.reels
    .find(({ reel }) => reel === duty.reel)!
    .duties.filter((each) => each.copy !== duty.copy || each.tool !== duty.tool)
  const { model, draw_mm } = workReckoner(reels.get(duty.reel)!.belief)(rest.map(partOf))
  return leftOverAt(model, draw_mm).value
}
