import type { ReadJson, ReadPrintJson } from '../contract/index.ts'
import { usageFault } from './fault.ts'
import { nominalFilament } from './nominal-mass.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import { readInput } from './read-input.ts'
import { readReport } from './read-report.ts'
import { readToJson } from './read-to-json.ts'
import { run } from './run.ts'

interface ReadText extends FileText {
  readonly json?: boolean
  readonly material?: string
  readonly density?: string
}

/** `reelreckon read`: what each print draws. */
export const readCommand = (files: readonly string[], typed: ReadText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    if (files.filter((file) => file === '-').length > 1) {
      throw usageFault('stdin_twice', '- stands for standard input, and can be read only once.')
    }
    const filament = nominalFilament(typed)
    const options = { ...parseFileOptions(typed), motion: {} }
    const prints: ReadPrintJson[] = []
    const sheets: string[] = []
    for (const file of files) {
      // oxlint-disable-next-line no-await-in-loop -- each at full speed, in constant memory
      const input = await readInput(file, options)
      for (const print of input.print.prints) {
        const data = readToJson(input, print, filament)
        prints.push(data)
        if (typed.json !== true) {
          sheets.push(readReport(terminal, data, print.reading, filament))
        }
      }
    }
    const [only, ...more] = prints
    const answer: ReadJson = only !== undefined && more.length === 0 ? only : { prints }
    return {
      text: typed.json === true ? `${JSON.stringify(answer, null, 2)}\n` : sheets.join('\n'),
      exit: 0,
    }
  })
