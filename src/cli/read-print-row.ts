import type { PrintRowJson } from '../contract/index.ts'
import type { MotionOptions } from '../print/index.ts'
import { chosenPrint } from './chosen-print.ts'
import { exitCode, Fault } from './fault.ts'
import { inCommandWords } from './in-command-words.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import { printRowOfInput } from './print-row-of-input.ts'
import { readInput } from './read-input.ts'

/** What leaves open whether the file draws what it seems to. */
const doubts: ReadonlySet<string> = new Set([
  'maybe_cut_short',
  'e_looks_like_mm3',
  'e_looks_made_for_other_diameter',
  'e_looks_relative',
])

/**
 * A print file as it is kept. All firmware families are: which one runs the printer may change.
 *
 * @param motion - what is known of the printer's, for the times
 * @throws Fault as `readInput`, `chosenPrint`; and where it is in doubt what the file draws, unless that is accepted
 */
export const readPrintRow = async (
  file: string,
  typed: FileText & { readonly member?: string; readonly accept?: boolean },
  now: number,
  motion: MotionOptions,
): Promise<PrintRowJson> => {
  const { firmware: _firmware, ...options } = parseFileOptions(typed)
  const input = await readInput(file, { ...options, motion })
  const print = chosenPrint(input.print.prints, typed.member)
  const doubt = print.reading.findings.find(({ code }) => doubts.has(code))
  if (doubt !== undefined && typed.accept !== true) {
    throw new Fault(exitCode.surprising, {
      code: doubt.code,
      message: `${inCommandWords(doubt)} Nothing was recorded; with --accept it is taken as it was read.`,
      file: input.file,
      line: doubt.line,
    })
  }
  return printRowOfInput(input, print, now)
}
