import type { Assumption } from '../estimate/index.ts'
import { defaultPriors, type Prior } from '../estimate/index.ts'
import { type Printer, unknownPrinter } from '../verdict/index.ts'
import type { CheckText } from './check-text.ts'
import { parseFactor } from './parse-factor.ts'
import { parsePathLength } from './parse-fed-length.ts'

/** The printer, and what is assumed of it. */
export interface PrinterTold {
  readonly printer: Printer
  readonly assumed: readonly Assumption[]
}

const assumption = (id: string, what: string, { value, u, unit, source }: Prior): Assumption => ({
  id,
  what,
  value,
  u,
  unit,
  source,
})

/** The printer from what was typed; the priors stand in for the rest. @throws Fault */
export const parsePrinter = ({
  feedFactor,
  startAllowance: start,
  tail,
}: CheckText): PrinterTold => {
  const priors = defaultPriors
  const assumed: Assumption[] = []
  if (feedFactor === undefined) {
    assumed.push(
      assumption('feed_factor', 'what the printer feeds per mm asked', priors.feedFactor),
    )
  }
  if (start === undefined) {
    assumed.push(
      assumption('start_allowance', 'filament used and not in the file', priors.startAllowance),
    )
  }
  if (tail === undefined) {
    assumed.push(assumption('tail', 'last length that can not be printed', priors.tail))
  }
  return {
    assumed,
    printer: {
      feedFactor:
        feedFactor === undefined
          ? unknownPrinter.feedFactor
          : parseFactor(feedFactor, '--feed-factor'),
      startAllowance_mm:
        start === undefined
          ? unknownPrinter.startAllowance_mm
          : parsePathLength(start, '--start-allowance'),
      tail_mm: tail === undefined ? unknownPrinter.tail_mm : parsePathLength(tail, '--tail'),
    },
  }
}
