import { useEffect } from 'react'
import { motionOfPrinter } from '../../ledger/index.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'
import type { ReadingAtHand } from './use-reading.ts'

/** Plans the times of the print at hand by what its printer may do. */
export function usePlannedFor(
  { plan }: Pick<ReadingAtHand, 'plan'>,
  { printer, isKnown }: Pick<PrinterAtHand, 'printer' | 'isKnown'>,
): void {
  // By its text: a printer that was fetched anew is the same.
  const motion = JSON.stringify(printer === null ? {} : motionOfPrinter(printer))
  useEffect(() => {
    if (isKnown) plan(JSON.parse(motion))
  }, [plan, isKnown, motion])
}
