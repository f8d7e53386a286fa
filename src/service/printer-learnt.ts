import {
  type Assumption,
  assumedOfPrinter,
  type PrintTold,
  printerPosterior,
  type ShelfEstimate,
} from '../estimate/index.ts'
import { measured, millimetres } from '../units/index.ts'
import type { Printer } from '../verdict/index.ts'

/**
 * A printer with what its prints have taught, and the spread that one print has about that.
 *
 * @param id - absent or unknown to the estimate: as told
 * @param told - its tail is taken
 * @param printTold - goes before what was learnt
 */
export const printerLearnt = (
  estimate: ShelfEstimate,
  id: string | undefined,
  told: Printer,
  printTold: PrintTold = {},
): Printer => {
  if (id === undefined || !estimate.book.printerAt.has(id)) return told
  const { feedFactor, startAllowance } = printerPosterior(estimate, id)
  const { feedOfOneDraw, startOfOneDraw } = estimate.book.priors
  return {
    feedFactor:
      printTold.feedFactor ??
      measured(feedFactor.value, Math.hypot(feedFactor.u, feedFactor.value * feedOfOneDraw.u)),
    startAllowance_mm:
      printTold.startAllowance ??
      measured(millimetres(startAllowance.value), Math.hypot(startAllowance.u, startOfOneDraw.u)),
    tail_mm: told.tail_mm,
  }
}

/** What of the same printer nobody has measured or told; nothing of one that the estimate does not know. */
export const printerAssumed = (
  estimate: ShelfEstimate,
  id: string | undefined,
  printTold: PrintTold = {},
): readonly Assumption[] => {
  if (id === undefined || !estimate.book.printerAt.has(id)) return []
  const told = new Set([
    ...(printTold.feedFactor ? ['feed_factor'] : []),
    ...(printTold.startAllowance ? ['start_allowance'] : []),
  ])
  return assumedOfPrinter(estimate, id).filter((one) => !told.has(one.id))
}
