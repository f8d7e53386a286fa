import type { PrintToCheck } from '../api/api.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'
import type { PrintRead } from './use-reading.ts'

/**
 * The print that was read, on the printer at hand.
 *
 * @returns null where there is no such print, or nothing yet that it is known by
 */
export const printToCheck = (
  { file, member, sha256 }: PrintRead,
  { printer, firmware }: Pick<PrinterAtHand, 'printer' | 'firmware'>,
): PrintToCheck | null => {
  const print = file.prints[member]
  if (print === undefined || sha256 === null) return null
  const { name, bytes, container } = file
  return {
    name,
    sha256,
    bytes,
    container,
    member: print.name,
    reading: print.reading,
    ...(printer !== null && { printer: printer.id }),
    ...(firmware !== null && { firmware }),
  }
}
