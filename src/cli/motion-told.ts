import { readFile } from 'node:fs/promises'
import { text } from 'node:stream/consumers'
import type { MotionJson } from '../contract/index.ts'
import { motionRowOf } from '../ledger/index.ts'
import { type FirmwareFamilyId, motionOfReport } from '../print/index.ts'
import { usageFault } from './fault.ts'

/**
 * What a file with a printer's answer to M503, or its configuration, tells of its motion.
 *
 * @param family - of the printer, where it is told
 * @throws Fault `motion_unreadable`, `motion_not_found`
 */
export const motionTold = async (
  file: string | undefined,
  family: FirmwareFamilyId | undefined,
): Promise<{ readonly motion?: MotionJson; readonly firmware?: FirmwareFamilyId }> => {
  if (file === undefined) return {}
  const found = motionOfReport(await textOf(file), family)
  if (found?.values === undefined) {
    throw usageFault(
      'motion_not_found',
      `--motion: nothing in ${file} tells of a printer's motion. Give a text file with its answer to M503, or its configuration.`,
      '--motion',
    )
  }
  const { family: firmware } = found
  return { motion: motionRowOf(found.values), ...(firmware !== undefined && { firmware }) }
}

const textOf = async (file: string): Promise<string> => {
  try {
    return file === '-' ? await text(process.stdin) : await readFile(file, 'utf8')
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable'
    throw usageFault('motion_unreadable', `--motion: ${file} can not be read (${why}).`, '--motion')
  }
}
