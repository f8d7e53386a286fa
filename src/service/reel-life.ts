import type { FactJson, MeasuredJson, ReelLifeJson } from '../contract/index.ts'
import { keepAbove, marginal, reelPosterior, shelfNames } from '../estimate/index.ts'
import { daysOf, reelOfFact } from '../ledger/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** Kinds of facts that say something of what a reel holds. */
const saysMass: ReadonlySet<FactJson['kind']> = new Set([
  'opened',
  'weighed',
  'drew',
  'trimmed',
  'emptied',
  'ran-dry',
])

/** Those that take filament off at their moment. */
const takesOff: ReadonlySet<FactJson['kind']> = new Set(['drew', 'trimmed', 'emptied', 'ran-dry'])

/** A fact's moment is told to the millisecond: the net this long before is without it. */
const justBefore = 0.5 / 86_400_000

/**
 * What a reel held along its life, by all that is known today. Facts that do not hold are left out;
 * the line is empty where the reel's facts can not be reckoned with.
 *
 * @param reel - id of a reel of the shelf
 */
export const reelLife = (view: ShelfView, reel: string): ReelLifeJson => {
  const { estimate, standing } = view
  if (!estimate.book.reelAt.has(reel)) return { reel, line: [], marks: [] }
  const netAt = (at: number): MeasuredJson => {
    const joint = keepAbove(
      reelPosterior(estimate, reel, { at }),
      { terms: { [shelfNames.net]: 1 } },
      0,
    )
    const { value, u } = marginal(joint, { terms: { [shelfNames.net]: 1 } })
    return { value, u }
  }
  const facts = standing.facts
    .filter((fact) => saysMass.has(fact.kind) && reelOfFact(fact) === reel)
    .toSorted((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)))
  const line: { at: string; net_g: MeasuredJson }[] = []
  const marks: ReelLifeJson['marks'][number][] = []
  for (const [place, { id, at, kind }] of facts.entries()) {
    const sameMoment = facts[place - 1]?.at === at
    const last = line.at(-1)
    const net_g = sameMoment && last !== undefined ? last.net_g : netAt(daysOf(at))
    if (!sameMoment) {
      const isStep = facts.some((each) => each.at === at && takesOff.has(each.kind))
      if (isStep && place > 0) line.push({ at, net_g: netAt(daysOf(at) - justBefore) })
      line.push({ at, net_g })
    }
    marks.push({ fact: id, at, kind, net_g })
  }
  return { reel, line, marks }
}
