import type { ImportJson } from '../contract/index.ts'
import {
  guessReelMapping,
  namedReelMapping,
  type ReelColumn,
  type ReelMapping,
  reelColumns,
  sayReelMapping,
} from '../ledger/index.ts'
import { type HandedIn, leftOutRightly, readCsv, readTable, tableTold } from '../service/index.ts'
import { exitCode, Fault, refusedFile, usageFault } from './fault.ts'
import type { Imported } from './import-command.ts'
import { taken } from './taken.ts'

/** What was typed of a table. */
export interface TableText {
  readonly column?: readonly string[]
  readonly delimiter?: string
  readonly scale?: string
  readonly currency?: string
  readonly unused?: boolean
  readonly alike?: boolean
  readonly skipBad?: boolean
}

/**
 * Reels out of a table of a person's own.
 *
 * @throws Fault of wrong usage, or exit code 3 with every row that can not be taken
 */
export const reelsOfTable = async (
  file: string,
  text: string,
  typed: TableText,
  { scale, ...handed }: HandedIn & { readonly scale?: string },
): Promise<Imported> => {
  const cells = await readCsv(text, typed.delimiter)
  if (!cells.ok) throw refusedFile(file, cells.refusal)
  const { header, rows } = cells.value
  const guessed = guessReelMapping(header)
  const named = namedColumns(typed.column ?? [])
  const mapping: ReelMapping = {
    ...guessed.mapping,
    ...taken(namedReelMapping(header, named), '--column'),
  }
  const { currency, unused, alike } = typed
  const read = await readTable(handed, {
    header,
    rows,
    mapping,
    ...(scale !== undefined && { scale }),
    ...(currency !== undefined && { currency }),
    ...(unused !== undefined && { unused }),
    ...(alike !== undefined && { alike }),
  })
  if (!read.ok) throw refusedTable(file, read.refusal)
  const told = tableTold(read.value, { header, rows, mapping })
  const bad = told.skipped.filter(({ code }) => !leftOutRightly.has(code))
  if (bad.length > 0 && typed.skipBad !== true) throw badRows(file, bad)
  return {
    records: read.value.records,
    ifRevision: read.value.revision,
    ...told,
    skipped: told.skipped.map(withOption),
    said: sayReelMapping(header, mapping),
  }
}

/** What a person can do about a row that seems to be there. */
const withOption = (one: ImportJson['skipped'][number]): ImportJson['skipped'][number] => {
  if (one.code !== 'there') return one
  const { message, ...rest } = one
  return { ...rest, message: `${message} If it is another reel, say --alike.` }
}

const shownRows = 20

const badRows = (file: string, bad: ImportJson['skipped']): Fault => {
  const lines = bad
    .slice(0, shownRows)
    .map(({ row, column, message }) => {
      const where = column === null ? `Row ${row}` : `Row ${row}, column "${column}"`
      return `\n${where}: ${message}`
    })
    .join('')
  const more = bad.length > shownRows ? `\nand ${bad.length - shownRows} more` : ''
  return new Fault(exitCode.unreadable, {
    code: 'rows_refused',
    message: `${bad.length === 1 ? 'A row' : `${bad.length} rows`} can not be taken, so nothing was written. Put them right, or leave them out with --skip-bad.${lines}${more}`,
    file,
  })
}

const refusedTable = (file: string, refusal: Parameters<typeof refusedFile>[1]): Fault => {
  const option = optionFor[refusal.code]
  return option === undefined
    ? refusedFile(file, refusal)
    : usageFault(refusal.code, `${refusal.message} ${option}`)
}

const optionFor: Readonly<Record<string, string>> = {
  column_needed: "Write for example --column 'make=Product'.",
  scale_needed: "Write for example --scale 'kitchen scale'; reelreckon scale add sets one up.",
}

/** @throws Fault `key_unknown`, `key_twice` */
const namedColumns = (typed: readonly string[]): Partial<Record<ReelColumn, string>> => {
  const named: Partial<Record<ReelColumn, string>> = {}
  for (const each of typed) {
    const at = each.indexOf('=')
    const key = reelColumns.find((one) => one === each.slice(0, Math.max(0, at)).trim())
    if (key === undefined) {
      throw usageFault(
        'key_unknown',
        `--column: "${each}" is not understood. Write KEY=HEADING, with one of ${reelColumns.join(', ')}.`,
        '--column',
      )
    }
    if (named[key] !== undefined) {
      throw usageFault('key_twice', `--column: "${key}" is given twice.`, '--column')
    }
    named[key] = each.slice(at + 1)
  }
  return named
}
