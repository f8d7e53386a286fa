import type { PrintReading } from '../../print/index.ts'
import type { PrintToCheck } from '../api/api.ts'
import type { PrinterAtHand } from '../running/use-printer.ts'
import type { PrintRead } from './use-reading.ts'

/** Before these are answered nobody knows what the print draws, or of which reels. */
const decides: ReadonlySet<string> = new Set([
  'e_looks_relative',
  'e_looks_made_for_other_diameter',
])

/** Whether the file leaves open what no reel can be judged without. */
export const isLeftOpen = ({ findings }: Pick<PrintReading, 'findings'>): boolean =>
  findings.some(({ code }) => decides.has(code))

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
    ...(file.answers.diameter_mm !== undefined && { diameter_mm: file.answers.diameter_mm }),
    ...(printer !== null && { printer: printer.id }),
    ...(firmware !== null && { firmware }),
  }
}
