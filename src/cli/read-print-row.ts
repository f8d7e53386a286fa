import type { PrintRowJson } from '../contract/index.ts'
import type { MotionOptions } from '../print/index.ts'
import { chosenPrint } from './chosen-print.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import { printRowOfInput } from './print-row-of-input.ts'
import { readInput } from './read-input.ts'

/**
 * A print file as it is kept. All firmware families are: which one runs the printer may change.
 *
 * @param motion - what is known of the printer's, for the times
 * @throws Fault as `readInput`, `chosenPrint`
 */
export const readPrintRow = async (
  file: string,
  typed: FileText & { readonly member?: string },
  now: number,
  motion: MotionOptions,
): Promise<PrintRowJson> => {
  const { firmware: _firmware, ...options } = parseFileOptions(typed)
  const input = await readInput(file, { ...options, motion })
  return printRowOfInput(input, chosenPrint(input.print.prints, typed.member), now)
}
