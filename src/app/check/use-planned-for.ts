import { useEffect } from 'react'
import { motionOfPrinter } from '../../ledger/index.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'
import type { ReadingAtHand } from './use-reading.ts'

/** Plans the times of the print at hand by what its printer may do. */
export function usePlannedFor(
  { plan }: Pick<ReadingAtHand, 'plan'>,
  { printer, isKnown }: Pick<PrinterAtHand, 'printer' | 'isKnown'>,
): void {
  // By its text: a printer that was fetched anew is the same. Where none is told of, as out of touch,
  // what is kept of the last one stays.
  const motion = printer === null ? null : JSON.stringify(motionOfPrinter(printer))
  useEffect(() => {
    if (isKnown && motion !== null) plan(JSON.parse(motion))
  }, [plan, isKnown, motion])
}
