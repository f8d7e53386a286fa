import type { PrintToCheck } from '../api/api.ts'
import type { ReadFile } from '../reading/read-file.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'

/** A print of a file that was read, on the printer at hand. @returns null where there is no such print */
export const printToCheck = (
  file: ReadFile,
  member: number,
  { printer, firmware }: Pick<PrinterAtHand, 'printer' | 'firmware'>,
): PrintToCheck | null => {
  const print = file.prints[member]
  if (print === undefined) return null
  const { name, sha256, bytes, container } = file
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
