import {
  condition,
  defaultPriors,
  type JointNormal,
  keepAbove,
  linearDensityOf,
  marginal,
  netOf,
  type Priors,
  type ReelBelief,
  scaled,
  sumOf,
} from '../estimate/index.ts'
import { type Grams, grams, type Millimetres, millimetres } from '../units/index.ts'
import { measures } from './measure.ts'
import { isMade } from './next-measure.ts'

/** What one measurement would do for what is known of a reel, whatever is to be printed. */
export interface Narrowing {
  /** Stable, snake_case. */
  readonly id: string
  readonly instruction: string
  readonly effort_min: number
  /** Standard deviation of the net mass after it, g. */
  readonly netSd: Grams
  /** Standard deviation of the length left after it, mm. */
  readonly lengthSd: Millimetres
}

/** A measurement that leaves more than this share of both spreads is not worth its effort. */
const unchanged = 0.95

/**
 * The measurements on a reel that narrow what is left on it, the best for its length first. The length
 * is n/λ to first order about today's means.
 *
 * @param belief - of a shelf or of one reel told; what it knows of a printer is no matter
 */
export const narrowReel = (
  belief: ReelBelief,
  priors: Priors = defaultPriors,
): readonly Narrowing[] => {
  const { net, linearDensity } = belief
  const { value: n } = netOf(belief)
  const { value: perMetre } = linearDensityOf(belief)
  const length = sumOf(
    scaled(net, 1000 / perMetre),
    scaled(linearDensity, (-1000 * n) / perMetre ** 2),
  )
  const spreads = (joint: JointNormal): readonly [net: number, length: number] => {
    const kept = keepAbove(joint, net, 0)
    return [marginal(kept, net).u, marginal(kept, length).u]
  }
  const [netBefore, lengthBefore] = spreads(belief.joint)
  const none = { terms: {} }
  const nextPrint = belief.nextPrint ?? {
    feedFactor: none,
    startAllowance: none,
    meanFeedFactor: none,
    meanStartAllowance: none,
  }
  return measures
    .filter(({ id }) => id !== 'weigh_around_a_print')
    .flatMap((measure): readonly Narrowing[] => {
      const row = measure.row({ belief, joint: belief.joint, nextPrint, priors })
      if (isMade(measure, row, belief)) return []
      const { joint } = condition(belief.joint, {
        ...row,
        value: marginal(belief.joint, row.form).value,
      })
      const [netSd, lengthSd] = spreads(joint)
      if (netSd > unchanged * netBefore && lengthSd > unchanged * lengthBefore) return []
      const { id, effort_min } = measure
      const instruction = (belief.another && measure.recorded) || measure.instruction
      return [{ id, instruction, effort_min, netSd: grams(netSd), lengthSd: millimetres(lengthSd) }]
    })
    .toSorted((a, b) => a.lengthSd - b.lengthSd)
}
