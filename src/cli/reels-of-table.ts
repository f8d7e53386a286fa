import type { ImportJson, LedgerRecord } from '../contract/index.ts'
import {
  guessReelMapping,
  namedReelMapping,
  type ReelColumn,
  type ReelMapping,
  reelColumns,
  sayReelMapping,
} from '../ledger/index.ts'
import { type HandedIn, readTable } from '../service/index.ts'
import { exitCode, Fault, refusedFile, usageFault } from './fault.ts'
import type { Imported } from './import-command.ts'
import { taken } from './parse-reel.ts'

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
  const [header = [], ...rows] = await cellsOf(file, text, typed.delimiter)
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
  const skipped: ImportJson['skipped'][number][] = []
  const reels: Imported['reels'][number][] = []
  const cell = (row: number, column: ReelColumn): string => {
    const place = mapping[column]
    return place === undefined ? '' : (rows[row - 2]?.[place] ?? '').trim()
  }
  for (const { row, outcome } of read.value.rows) {
    if (outcome.kind === 'refused') {
      const { code, message } = outcome.refusal
      const [, column = null] = /^Row \d+, column "(.*?)": /.exec(message) ?? []
      skipped.push({
        row,
        column,
        code,
        message: message.replace(/^Row \d+(, column ".*?")?: /, ''),
      })
    } else if (outcome.kind === 'there') {
      skipped.push({
        row,
        column: null,
        code: 'there',
        message: `${outcome.why} (${outcome.reel}) If it is another reel, say --alike.`,
      })
    } else if (outcome.kind === 'new') {
      const name = [cell(row, 'maker'), cell(row, 'make') || cell(row, 'material')]
      const what = [
        name.filter(Boolean).join(' '),
        cell(row, 'colour'),
        ...massesOf(outcome.records),
      ]
        .filter(Boolean)
        .join(', ')
      reels.push({ row, id: outcome.reel, what })
    }
  }
  const bad = skipped.filter(({ code }) => code !== 'there')
  if (bad.length > 0 && typed.skipBad !== true) throw badRows(file, bad)
  return {
    records: read.value.records,
    ifRevision: read.value.revision,
    reels,
    skipped,
    columns: reelColumns.flatMap((key) => {
      const place = mapping[key]
      return place === undefined ? [] : [{ key, column: header[place] ?? '' }]
    }),
    said: sayReelMapping(header, mapping),
  }
}

/** What a reel's label and its weighings will be, as they were understood. */
const massesOf = (records: readonly LedgerRecord[]): readonly string[] =>
  records.flatMap((record) => {
    if (record.kind === 'weighed') return [`gross ${record.weighing.reading_g} g`]
    if (record.kind !== 'opened') return []
    const { label_net_g: label, gross_when_new: gross } = record
    return [
      ...(label === undefined ? [] : [`label ${label} g`]),
      ...(gross === undefined ? [] : [`gross when new ${gross.reading_g} g`]),
    ]
  })

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

const delimiters = [',', ';', '\t', '|'] as const

/** The mark that stands most often in the first line, where none is given. */
const delimiterOf = (text: string): string => {
  const first = text.slice(0, Math.max(0, `${text}\n`.indexOf('\n')))
  const count = (mark: string): number => first.split(mark).length
  return delimiters.reduce((most, each) => (count(each) > count(most) ? each : most))
}

const cellsOf = async (
  file: string,
  text: string,
  delimiter: string | undefined,
): Promise<readonly (readonly string[])[]> => {
  const { parse } = await import('csv-parse/sync')
  try {
    return parse(text, {
      bom: true,
      delimiter: delimiter === undefined ? delimiterOf(text) : delimiter.replace('\\t', '\t'),
      relax_column_count: true,
    })
  } catch (error) {
    if (!(error instanceof Error)) throw error
    const line = 'lines' in error && typeof error.lines === 'number' ? error.lines : undefined
    throw refusedFile(file, {
      code: 'no_table',
      message: `This is neither a ledger's lines nor a table that can be read: ${error.message}. Save it as CSV again, or say --delimiter.`,
      ...(line !== undefined && { line }),
    })
  }
}
