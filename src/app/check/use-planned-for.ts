import { useEffect } from 'react'
import { motionOfPrinter } from '../../ledger/index.ts'
import type { ReadFile } from '../reading/read-file.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'
import type { ReadingAtHand } from './use-reading.ts'

/**
 * Plans the times of the print at hand by what its printer may do.
 *
 * @returns what it may do, as `plannedFor` has it of a file; null where no printer is told of
 */
export function usePlannedFor(
  { plan }: Pick<ReadingAtHand, 'plan'>,
  { printer, isKnown }: Pick<PrinterAtHand, 'printer' | 'isKnown'>,
): string | null {
  // By its text: a printer that was fetched anew is the same. Where none is told of, as out of touch,
  // what is kept of the last one stays.
  const motion = printer === null ? null : JSON.stringify(motionOfPrinter(printer))
  useEffect(() => {
    if (isKnown && motion !== null) plan(JSON.parse(motion))
  }, [plan, isKnown, motion])
  return motion
}

/** What the printer may do by which a file's times were planned. */
export const plannedFor = ({ answers }: Pick<ReadFile, 'answers'>): string =>
  JSON.stringify(answers.motion ?? {})
