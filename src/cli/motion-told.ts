import { readFile } from 'node:fs/promises'
import { text } from 'node:stream/consumers'
import type { PrinterRowJson } from '../contract/index.ts'
import type { FirmwareFamilyId } from '../print/index.ts'
import { motionReported } from '../service/index.ts'
import { usageFault } from './fault.ts'
import { taken } from './taken.ts'

/**
 * What a file with a printer's answer to M503, or its configuration, tells of its motion.
 *
 * @param family - of the printer, where it is told
 * @throws Fault `motion_unreadable`, `motion_not_found`
 */
export const motionTold = async (
  file: string | undefined,
  family: FirmwareFamilyId | undefined,
): Promise<Pick<PrinterRowJson, 'motion' | 'firmware'>> =>
  file === undefined ? {} : taken(motionReported(await textOf(file), family), '--motion')

const textOf = async (file: string): Promise<string> => {
  try {
    return file === '-' ? await text(process.stdin) : await readFile(file, 'utf8')
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable'
    throw usageFault('motion_unreadable', `--motion: ${file} can not be read (${why}).`, '--motion')
  }
}
