import {
  type ImportJson,
  importJson,
  type TableHeadRequest,
  type TableRequest,
  tableHeadJson,
  tableHeadRequest,
  tableRequest,
} from '../contract/index.ts'
import {
  guessReelMapping,
  type ReelColumn,
  type ReelMapping,
  reelColumns,
  sayReelMapping,
} from '../ledger/index.ts'
import {
  type CsvCells,
  findRow,
  type HandedIn,
  importRecords,
  leftOutRightly,
  readCsv,
  readTable,
  tableTold,
  withNets,
} from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'

const limit = 16 * 2 ** 20
/** Cells below a heading that are shown: enough to tell what they are. */
const shown = 3

const common = { tag: 'ledger', method: 'post', limit } as const

const isKey = (key: string): key is ReelColumn => (reelColumns as readonly string[]).includes(key)

const mappingOf = ({ header }: CsvCells, told: TableRequest['columns']): Outcome<ReelMapping> => {
  if (told === undefined) return accept(guessReelMapping(header).mapping)
  for (const [key, place] of Object.entries(told)) {
    if (!isKey(key)) {
      return refuse({
        code: 'key_unknown',
        message: `"${key}" is nothing that is told of a reel. There are ${reelColumns.join(', ')}.`,
        received: key,
      })
    }
    if (place >= header.length) {
      return refuse({
        code: 'column_missing',
        message: `There is no column ${place}: they are counted from 0 to ${header.length - 1}.`,
        received: String(place),
      })
    }
  }
  return accept(told)
}

/** The scale named; else the only one in use, if there is one. */
const scaleOf = async (
  { store }: HandedIn,
  typed?: string,
): Promise<Outcome<string | undefined>> => {
  const rows = await store.catalogue()
  if (typed !== undefined) {
    const found = findRow(rows, 'scale', typed)
    return found.ok ? accept(found.value.id) : found
  }
  const [one, ...more] = rows.filter((row) => row.kind === 'scale' && row.retired !== true)
  return accept(more.length === 0 ? one?.id : undefined)
}

/** Reels out of a table that a person kept. */
export const tableEndpoints: readonly Endpoint[] = [
  endpoint<TableHeadRequest>({
    ...common,
    id: 'readTableHead',
    path: '/api/import/table-head',
    summary: 'The columns of a table of reels, and what each is taken for.',
    body: tableHeadRequest,
    answer: tableHeadJson,
    gate: 'none',
    run: async ({ body: { csv, delimiter } }) => {
      const cells = await readCsv(csv, delimiter)
      if (!cells.ok) return cells
      const { header, rows } = cells.value
      const { mapping } = guessReelMapping(header)
      const said = sayReelMapping(header, mapping)
      const columns = header.map((heading, place) => ({
        heading,
        cells: rows.slice(0, shown).map((row) => row[place] ?? ''),
        key: reelColumns.find((key) => mapping[key] === place) ?? null,
        said: said[place] ?? '',
      }))
      return accept({ json: { columns, rows: rows.length } })
    },
  }),
  endpoint<TableRequest>({
    ...common,
    id: 'importTable',
    path: '/api/import/table',
    summary:
      'Takes over the reels of a CSV table: all rows or none, unless bad ones are to be left out.',
    body: tableRequest,
    answer: importJson,
    gate: 'write',
    run: async ({ around, body, handed }) => {
      const { csv, delimiter, columns, scale: named, currency, unused, alike } = body
      const isDry = body.dry_run === true
      const cells = await readCsv(csv, delimiter)
      if (!cells.ok) return cells
      const mapping = mappingOf(cells.value, columns)
      if (!mapping.ok) return mapping
      const scale = await scaleOf(handed(), named)
      if (!scale.ok) return scale
      const table = { ...cells.value, mapping: mapping.value }
      const read = await readTable(handed(body.by), {
        ...table,
        ...(scale.value !== undefined && { scale: scale.value }),
        ...(currency !== undefined && { currency }),
        ...(unused !== undefined && { unused }),
        ...(alike !== undefined && { alike }),
      })
      if (!read.ok) return read
      const told = tableTold(read.value, table)
      const bad = told.skipped.filter(({ code }) => !leftOutRightly.has(code))
      if (bad.length > 0 && !isDry && body.skip_bad !== true) {
        return refuse({
          code: 'rows_refused',
          message: `${bad.length === 1 ? 'A row' : `${bad.length} rows`} can not be taken, so nothing was written. Put them right, or have them left out.`,
          line: bad[0]!.row,
        })
      }
      const rehearsal = isDry ? await around.ledger.rehearsal() : undefined
      if (rehearsal?.ok === false) return rehearsal
      try {
        const store = around.ledger.store()
        const { records, revision: ifRevision } = read.value
        const done = await importRecords(store, records, rehearsal?.value, { ifRevision })
        if (!done.ok) return done
        const reels = await withNets(rehearsal?.value ?? store, told.reels)
        const json: ImportJson = { file: '-', dry_run: isDry, ...done.value, ...told, reels }
        return accept({ json })
      } finally {
        await rehearsal?.value.close()
      }
    },
  }),
]
