import { defaultPriors } from '../estimate/index.ts'
import { type Measured, type Millimetres, measured, millimetres } from '../units/index.ts'

/** What a printer does to a reel beyond what the file asks. */
export interface Printer {
  /** Fed for each millimetre asked, about 1. */
  readonly feedFactor: Measured
  /** Used per print and not in the file, mm. */
  readonly startAllowance_mm: Measured<Millimetres>
  /** Last length that can not be printed, mm. */
  readonly tail_mm: Measured<Millimetres>
}

const { feedFactor, startAllowance, tail } = defaultPriors

/** A printer nobody has measured: the priors. */
export const unknownPrinter: Printer = {
  feedFactor: measured(feedFactor.value, feedFactor.u),
  startAllowance_mm: measured(millimetres(startAllowance.value), startAllowance.u),
  tail_mm: measured(millimetres(tail.value), tail.u),
}
