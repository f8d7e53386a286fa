import type { ReadJson, ReadPrintJson } from '../contract/index.ts'
import { chosenPrint } from './chosen-print.ts'
import { drawnOnTheWay } from './drawing-of.ts'
import { exitCode, Fault } from './fault.ts'
import { unreadLines } from './file-name-column.ts'
import { filesAsked, noFolder } from './files-asked.ts'
import { nominalFilament } from './nominal-mass.ts'
import { onlyForOne } from './only-for-one.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import {
  drawnIn,
  type PictureAsked,
  type PictureText,
  pictureAsked,
  writePicture,
} from './picture.ts'
import { type Input, readInput } from './read-input.ts'
import { readMany } from './read-many.ts'
import { readReport } from './read-report.ts'
import { readTable } from './read-table.ts'
import { readToJson } from './read-to-json.ts'
import { type Result, run } from './run.ts'
import type { Terminal } from './terminal.ts'

interface ReadText extends FileText, PictureText {
  readonly json?: boolean
  readonly material?: string
  readonly density?: string
  readonly subfolders?: boolean
  readonly inFull?: boolean
  readonly member?: string
}

/** `reelreckon read`: what each print draws. */
export const readCommand = (typed: readonly string[], text: ReadText): Promise<void> =>
  run(text.json === true, async (terminal) => {
    const { files, many } = await filesAsked(typed, text.subfolders === true)
    const [only] = files
    const picture = await pictureAsked(text)
    if (many) onlyForOne(text)
    if (many) return readSeveral(terminal, files, text)
    noFolder(text)
    return readOne(terminal, only as string, text, picture)
  })

/** A print and its sheet. */
interface Told {
  readonly data: ReadPrintJson
  readonly sheet: () => string
}

const teller = (terminal: Terminal, text: ReadText): ((input: Input) => readonly Told[]) => {
  const filament = nominalFilament(text)
  return (input) =>
    input.print.prints.map((print) => {
      const data = readToJson(input, print, filament)
      return { data, sheet: () => readReport(terminal, data, print.reading, filament) }
    })
}

const readOne = async (
  terminal: Terminal,
  file: string,
  text: ReadText,
  picture: PictureAsked | undefined,
): Promise<Result> => {
  const tell = teller(terminal, text)
  const options = {
    ...parseFileOptions(text),
    ...(picture && drawnOnTheWay(picture.layer)),
    motion: {},
  }
  const input = narrowed(await readInput(file, options), text, picture)
  const prints = tell(input)
  if (picture) await writePicture(picture, { file, ...input.print.prints[0]! })
  const [only, ...more] = prints
  if (text.json !== true) {
    const sheets = prints.map(({ sheet }) => sheet()).join('\n')
    return { text: sheets + drawnIn(picture), exit: 0 }
  }
  const answer: ReadJson =
    only !== undefined && more.length === 0
      ? only.data
      : { prints: prints.map(({ data }) => data), errors: [] }
  return { text: json(answer), exit: 0 }
}

/** Of several prints in a zip the one that is named; a picture is of one. */
const narrowed = (input: Input, { member }: ReadText, picture: PictureAsked | undefined): Input =>
  member === undefined && picture === undefined
    ? input
    : { ...input, print: { ...input.print, prints: [chosenPrint(input.print.prints, member)] } }

const readSeveral = async (
  terminal: Terminal,
  files: Parameters<typeof readMany>[0],
  text: ReadText,
): Promise<Result> => {
  const tell = teller(terminal, text)
  const isInFull = text.inFull === true && text.json !== true
  // Of a print's reading only what is told is kept: there may be many.
  const results = await readMany(files, { ...parseFileOptions(text), motion: {} }, (input) =>
    tell(input).map(({ data, sheet }) => ({ data, sheet: isInFull ? sheet() : '' })),
  )
  const told = results.flatMap((each) => (each instanceof Fault ? [] : each))
  const errors = results.flatMap((each) => (each instanceof Fault ? [each.error] : []))
  const prints = told.map(({ data }) => data)
  const exit = errors.length > 0 ? exitCode.unreadable : 0
  if (text.json === true) return { text: json({ prints, errors }), exit }
  if (!isInFull) return { text: readTable(terminal, prints, errors), exit }
  const sheets = told.map(({ sheet }) => sheet)
  const unread = errors.length > 0 ? [`${unreadLines(errors).join('\n')}\n`] : []
  return { text: [...sheets, ...unread].join('\n'), exit }
}

const json = (answer: ReadJson): string => `${JSON.stringify(answer, null, 2)}\n`
