import type { ImportJson, LedgerRecord } from '../contract/index.ts'
import { type ReelColumn, reelColumns } from '../ledger/index.ts'
import type { ReelTable, TableRead } from './import-table.ts'

/** What becomes of each row of a table, in words. */
export interface TableTold extends Pick<ImportJson, 'skipped' | 'columns'> {
  readonly reels: readonly ReelOfTable[]
}

/** A reel that comes out of a row, in words. */
export type ReelOfTable = Omit<ImportJson['reels'][number], 'net_g'>

/** Why rows are left out that nothing is wrong with: these keep no other row out. */
export const leftOutRightly: ReadonlySet<string> = new Set(['there', 'gone'])

/** @param table - of which it was read */
export const tableTold = (
  { rows: read }: TableRead,
  { header, rows, mapping }: Pick<ReelTable, 'header' | 'rows' | 'mapping'>,
): TableTold => {
  const skipped: ImportJson['skipped'][number][] = []
  const reels: ReelOfTable[] = []
  const cell = (row: number, column: ReelColumn): string => {
    const place = mapping[column]
    return place === undefined ? '' : (rows[row - 2]?.[place] ?? '').trim()
  }
  for (const { row, outcome } of read) {
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
        message: `${outcome.why} (${outcome.reel})`,
      })
    } else if (outcome.kind === 'gone') {
      skipped.push({ row, column: null, code: 'gone', message: outcome.why })
    } else if (outcome.kind === 'new') {
      const name = [cell(row, 'maker'), cell(row, 'make') || cell(row, 'material')]
      const what = [
        name.filter(Boolean).join(' '),
        beside(cell(row, 'material'), name),
        cell(row, 'colour'),
        ...massesOf(outcome.records),
      ]
        .filter(Boolean)
        .join(', ')
      reels.push({ row, id: outcome.reel, what })
    }
  }
  return {
    reels,
    skipped,
    columns: reelColumns.flatMap((key) => {
      const place = mapping[key]
      return place === undefined ? [] : [{ key, column: header[place] ?? '' }]
    }),
  }
}

/** The material, where the name does not say it. */
const beside = (material: string, name: readonly string[]): string => {
  const words = name.join(' ').toLowerCase().split(/\s+/)
  return words.includes(material.toLowerCase()) ? '' : material
}

/** To a hundredth of a gram: pounds and ounces have no end in grams. */
const massOf = (mass_g: number): string => `${Number(mass_g.toFixed(2))} g`

/** What a reel's label and its weighings will be, as they were understood. */
const massesOf = (records: readonly LedgerRecord[]): readonly string[] =>
  records.flatMap((record) => {
    if (record.kind === 'weighed') return [`gross ${massOf(record.weighing.reading_g)}`]
    if (record.kind !== 'opened') return []
    const { label_net_g: label, gross_when_new: gross } = record
    return [
      ...(label === undefined ? [] : [`label ${massOf(label)}`]),
      ...(gross === undefined ? [] : [`gross when new ${massOf(gross.reading_g)}`]),
    ]
  })
