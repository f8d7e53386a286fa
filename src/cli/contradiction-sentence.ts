import { showId } from '../contract/index.ts'
import type { Notice } from '../estimate/index.ts'
import type { ContradictedWeighing } from '../service/index.ts'
import { upTo } from './say.ts'
import { sayDay } from './say-moment.ts'

/** An id as it stands on labels and in commands. */
export const sayFactId = (id: string): string => showId(id)

/**
 * Which weighing everything else contradicts, and what to do.
 *
 * @param about - the reel that is spoken of; another one is named
 */
export const contradictionSentence = (weighing: ContradictedWeighing, about: string): string => {
  const { fact, off_g } = weighing
  const id = sayFactId(fact)
  const off = `${upTo(Math.abs(off_g), 0)} g ${off_g > 0 ? 'more' : 'less'}`
  return `${whichWeighing(weighing, about)}, contradicts the rest, by which it is ${off} than it should be: put it right (reelreckon put-right ${id}), or weigh again.`
}

/** Which earlier weighing may be the wrong one, where one that was not recorded surprises. */
export const atFaultSentence = (weighing: ContradictedWeighing, about: string): string => {
  const id = sayFactId(weighing.fact)
  return `${whichWeighing(weighing, about)}, may be the wrong one: without it this one would not surprise. Weigh again; if the scale shows the same, put that one right before you accept this one (reelreckon put-right ${id}).`
}

/** Its day, reading and id. */
const whichWeighing = (
  { reel, fact, at, reading_g, what }: ContradictedWeighing,
  about: string,
): string => {
  const whose = reel === about ? '' : ` of reel ${reel}`
  const whole = {
    reel: whose,
    'when-new': `${whose} when new`,
    'empty-carrier': ` of the empty carrier${whose}`,
  }
  return `The weighing${whole[what]} of ${sayDay(at)}, ${upTo(reading_g, 2)} g (fact ${sayFactId(fact)})`
}

/** The same before the notices of a reel. */
export const withContradiction = (
  notices: readonly Notice[],
  contradicted: ContradictedWeighing | undefined,
): readonly Notice[] =>
  contradicted === undefined
    ? notices
    : [
        {
          code: 'contradicted',
          message: contradictionSentence(contradicted, contradicted.reel),
          fact: contradicted.fact,
        },
        ...notices,
      ]
