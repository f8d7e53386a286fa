import { formatMeasured } from '../units/index.ts'
import { marginal } from './joint-normal.ts'
import { normalCdf } from './normal.ts'
import type { Notice, ReelBelief } from './reel-belief.ts'

/** Beyond this many standard deviations an observation is called surprising. */
export const surprise = 3

/** Beyond this chance of a net mass of nothing it is said that there may be none. */
const mayBeEmpty = 0.05

/** What any belief must say of itself: facts that disagree, and a net mass that may be nothing. */
export function* noticesOfBelief({ joint, net, used }: ReelBelief): Generator<Notice, void> {
  for (const { what, off, surprising, fact } of used) {
    if (!surprising) continue
    yield {
      code: 'surprising',
      message: `What is known besides ${what} puts it ${Math.abs(off).toFixed(1)} standard deviations ${off > 0 ? 'lower' : 'higher'} than given. Usual reasons: another reel or carrier, something left on the scale, pounds or ounces taken for grams, a slipped digit. Until they agree nothing is called sure.`,
      ...(fact !== undefined && { fact }),
    }
  }
  const { value, u } = marginal(joint, net)
  const empty = u > 0 ? normalCdf(-value / u) : value > 0 ? 0 : 1
  if (empty > mayBeEmpty) {
    const chance = empty > 0.99 ? 'more than 99' : (100 * empty).toFixed(0)
    yield {
      code: 'net_may_be_nothing',
      message: `With a chance of ${chance} % these figures leave less than nothing on the reel: it may be empty. What is told of it takes it that something is left. A weighing with a tare that is known would tell.`,
    }
  }
}

/** For a ledger, where figures below nothing can not be refused as they are for one reel typed in. */
export function* netBelowNothing({ joint, net }: ReelBelief): Generator<Notice, void> {
  const left = marginal(joint, net)
  if (left.value + surprise * left.u >= 0) return
  yield {
    code: 'net_below_nothing',
    message: `By these facts the reel would hold ${formatMeasured(left, 'g')}, less than nothing. Usual reasons: a print recorded twice or on the wrong reel, a refill that was not recorded, another carrier.`,
  }
}
