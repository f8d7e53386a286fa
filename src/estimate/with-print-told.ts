import type { Measured, Millimetres } from '../units/index.ts'
import { extend, type LinearForm } from './joint-normal.ts'
import type { NextPrint, ReelBelief } from './reel-belief.ts'
import { standInsOf } from './stand-in.ts'

/** What is told of the next print itself; of the rest holds what its printer is known for. */
export interface PrintTold {
  readonly feedFactor?: Measured
  /** mm */
  readonly startAllowance?: Measured<Millimetres>
}

const feedTold = 'feed_told'
const startTold = 'start_told'
const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })

/**
 * The belief with what is told in the place of what was learnt of it, independent of all else: reel and
 * printer stay the joint that the facts led to. As it is where nothing is told, or where it knows of no
 * next print.
 */
export const withPrintTold = (belief: ReelBelief, told: PrintTold = {}): ReelBelief => {
  const { nextPrint: learnt, joint, standIns } = belief
  const { feedFactor, startAllowance } = told
  if (learnt === undefined || (feedFactor ?? startAllowance) === undefined) return belief
  const more = {
    ...(feedFactor && { [feedTold]: feedFactor }),
    ...(startAllowance && { [startTold]: startAllowance }),
  }
  const nextPrint: NextPrint = {
    ...learnt,
    ...(feedFactor && { feedFactor: one(feedTold), meanFeedFactor: one(feedTold) }),
    ...(startAllowance && { startAllowance: one(startTold), meanStartAllowance: one(startTold) }),
  }
  return {
    ...belief,
    joint: extend(joint, more),
    ...(standIns && { standIns: standInsOf(standIns, (of) => extend(of, more)) }),
    nextPrint,
    assumed: belief.assumed.filter(
      ({ id }) =>
        !(id === 'feed_factor' && feedFactor) && !(id === 'start_allowance' && startAllowance),
    ),
  }
}
