import {
  covarianceOf,
  marginal,
  type ReelBelief,
  type StandIn,
  standInsOf,
} from '../estimate/index.ts'
import { type Measured, measured, millimetres } from '../units/index.ts'
import type { Printer } from './printer.ts'

/** Covariances between what a printer takes and the reel it takes it from. */
export interface PrinterCovariances {
  /** cov(n, φ), g. */
  readonly netFeed: number
  /** cov(n, s), g·mm. */
  readonly netStart: number
  /** cov(λ, φ), g/m. */
  readonly linearDensityFeed: number
  /** cov(λ, s), g/m·mm. */
  readonly linearDensityStart: number
  /** cov(φ, s), mm. */
  readonly feedStart: number
}

/**
 * What decides the margin of any draw from one reel on one printer: n, λ, φ and s jointly normal as
 * the facts alone have them, and a tail independent of them. That n is not below 0 comes in with each
 * result.
 */
export interface MarginModel {
  /** n, g. */
  readonly net: Measured
  /** λ, g/m. */
  readonly linearDensity: Measured
  /** cov(n, λ), g²/m. */
  readonly covariance: number
  readonly printer: Printer
  /** The printer independent of the reel, and φ of s, unless given. */
  readonly between?: PrinterCovariances
  /**
   * What stands for all that the spreads behind this model may be: chances are reckoned from them, figures
   * from the model itself. It alone unless given.
   */
  readonly standIns?: readonly StandIn<MarginModel>[]
}

/**
 * Collects what the margin needs from a belief.
 *
 * @param printer - its tail is taken; feed factor and start allowance only where the belief has no
 *   `nextPrint`, which knows them better
 */
export const marginModel = (belief: ReelBelief, printer: Printer): MarginModel => {
  const { standIns, ...plain } = belief
  const model = modelOf(plain, printer)
  return standIns === undefined
    ? model
    : { ...model, standIns: standInsOf(standIns, (joint) => modelOf({ ...plain, joint }, printer)) }
}

const modelOf = (belief: Omit<ReelBelief, 'standIns'>, printer: Printer): MarginModel => {
  const { joint, net, linearDensity, nextPrint } = belief
  const model: MarginModel = {
    net: marginal(joint, net),
    linearDensity: marginal(joint, linearDensity),
    covariance: covarianceOf(joint, net, linearDensity),
    printer: printerOf(belief, printer),
  }
  if (!nextPrint) return model
  const { feedFactor, startAllowance } = nextPrint
  const between: PrinterCovariances = {
    netFeed: covarianceOf(joint, net, feedFactor),
    netStart: covarianceOf(joint, net, startAllowance),
    linearDensityFeed: covarianceOf(joint, linearDensity, feedFactor),
    linearDensityStart: covarianceOf(joint, linearDensity, startAllowance),
    feedStart: covarianceOf(joint, feedFactor, startAllowance),
  }
  return { ...model, between }
}

/** The printer as the belief has it, or as given where the belief has none. */
export const printerOf = ({ joint, nextPrint }: ReelBelief, given: Printer): Printer => {
  if (!nextPrint) return given
  const start = marginal(joint, nextPrint.startAllowance)
  return {
    feedFactor: marginal(joint, nextPrint.feedFactor),
    startAllowance_mm: measured(millimetres(start.value), start.u),
    tail_mm: given.tail_mm,
  }
}
