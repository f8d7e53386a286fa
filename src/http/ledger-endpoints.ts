import { z } from 'zod'
import { type ImportJson, importJson, keptJson, sessionJson } from '../contract/index.ts'
import { ledgerHeader, ledgerLine, ledgerTables } from '../ledger/index.ts'
import { importRecords, readLedgerLines, tableCsv } from '../service/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { sessionOf } from './access-endpoints.ts'
import { type Answer, type Asked, type Endpoint, endpoint, NotFound } from './endpoint.ts'
import { lookedUp, yesParam } from './parameter.ts'

const download = (body: ReadableStream<Uint8Array>, type: string, name: string): Response =>
  new Response(body, {
    headers: {
      'content-type': type,
      'content-disposition': `attachment; filename="${name}"`,
      'cache-control': 'no-store',
    },
  })

async function* linesOf(store: Store, now: number): AsyncGenerator<string, void> {
  yield `${ledgerHeader(now)}\n`
  for await (const record of store.records()) yield `${ledgerLine(record)}\n`
}

/** One record at a time, as fast as they are taken. */
const streamOf = (lines: AsyncGenerator<string, void>): ReadableStream<Uint8Array> => {
  const encoder = new TextEncoder()
  return new ReadableStream({
    async pull(controller) {
      const next = await lines.next()
      if (next.done === true) controller.close()
      else controller.enqueue(encoder.encode(next.value))
    },
    async cancel() {
      await lines.return()
    },
  })
}

const tableNames = ledgerTables([], [], []).map(({ name }) => name)

const exchange = async (asked: Asked<unknown>, wanted: boolean): Promise<Outcome<Answer>> => {
  const { around, gate, context } = asked
  const done = await around.ledger.setDemo(wanted, (work) => gate.alone(work))
  return done.ok ? accept({ json: await sessionOf(asked, context) }) : done
}

/** The whole ledger, out and in, and the demo shelf in its place. */
export const ledgerEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'exportLedger',
    tag: 'ledger',
    method: 'get',
    path: '/api/export',
    summary: 'The whole ledger as lines of JSON.',
    answer: 'application/x-ndjson',
    gate: 'read',
    run: async ({ around }) => {
      const lines = linesOf(around.ledger.store(), around.now())
      return accept({
        response: download(streamOf(lines), 'application/x-ndjson', 'shelf.ndjson'),
      })
    },
  }),
  endpoint({
    id: 'exportTable',
    tag: 'ledger',
    method: 'get',
    path: '/api/tables/{table}',
    summary: 'A part of the ledger as a table for a spreadsheet.',
    params: { table: lookedUp(z.enum(tableNames), tableNames.join(', ')) },
    answer: 'text/csv',
    gate: 'read',
    run: async ({ around, params }) => {
      const store = around.ledger.store()
      const tables = ledgerTables(
        await store.catalogue(),
        await store.facts(),
        await store.prints(),
      )
      const table = tables.find(({ name }) => name === params['table'])
      if (table === undefined) {
        throw new NotFound({
          code: 'table_unknown',
          message: `There is no such table. There are ${tableNames.join(', ')}.`,
        })
      }
      const text = new Blob([await tableCsv(table)])
      return accept({
        response: download(text.stream(), 'text/csv; charset=utf-8', `${table.name}.csv`),
      })
    },
  }),
  endpoint<string>({
    id: 'importLedger',
    tag: 'ledger',
    method: 'post',
    path: '/api/import',
    summary:
      'Takes over the lines of another ledger, plain or gzip: all of them or none, unless bad ones are to be left out.',
    query: {
      dry_run: yesParam('nothing is written where it is `true`'),
      skip_bad: yesParam('lines that are no record are left out and told of where it is `true`'),
    },
    body: 'application/x-ndjson',
    answer: importJson,
    limit: 64 * 2 ** 20,
    gate: 'write',
    run: async ({ around, query, body }) => {
      const read = readLedgerLines(body.split('\n'), query['skip_bad'] === 'true')
      if (!read.ok) return read
      const { records, skipped } = read.value
      const isDry = query['dry_run'] === 'true'
      const store = around.ledger.store()
      const rehearsal = isDry ? await around.ledger.rehearsal() : undefined
      if (rehearsal?.ok === false) return rehearsal
      try {
        const done = await importRecords(store, records, rehearsal?.value)
        if (!done.ok) return done
        const json: ImportJson = {
          file: '-',
          dry_run: isDry,
          ...done.value,
          reels: [],
          skipped,
          columns: [],
        }
        return accept({ json })
      } finally {
        await rehearsal?.value.close()
      }
    },
  }),
  endpoint({
    id: 'backUp',
    tag: 'ledger',
    method: 'get',
    path: '/api/backup',
    summary: 'The ledger in one file, checked.',
    answer: 'application/vnd.sqlite3',
    gate: 'read',
    run: async ({ around }) => {
      const backup = await around.ledger.backUp()
      if (!backup.ok) return backup
      const day = new Date(around.now()).toISOString().slice(0, 10)
      const name = `shelf-${day}.sqlite`
      return accept({ response: download(backup.value, 'application/vnd.sqlite3', name) })
    },
  }),
  endpoint<ReadableStream<Uint8Array>>({
    id: 'restore',
    tag: 'ledger',
    method: 'post',
    path: '/api/restore',
    summary: 'Puts a backup in the place of the ledger; what stood there is kept beside it.',
    query: { dry_run: yesParam('the backup is only checked and told of where it is `true`') },
    body: 'application/vnd.sqlite3',
    answer: keptJson,
    limit: 2 ** 31,
    gate: 'none',
    replaces: true,
    run: async ({ around, gate, query, body }) => {
      const restored = await (query['dry_run'] === 'true'
        ? around.ledger.examine(body)
        : around.ledger.restore(body, (work) => gate.alone(work)))
      return restored.ok ? accept({ json: restored.value }) : restored
    },
  }),
  endpoint({
    id: 'loadDemo',
    tag: 'ledger',
    method: 'post',
    path: '/api/demo',
    summary:
      'Puts the demo shelf in the place of your own ledger, which stays as it is until it is back.',
    answer: sessionJson,
    gate: 'none',
    replaces: true,
    run: (asked) => exchange(asked, true),
  }),
  endpoint({
    id: 'removeDemo',
    tag: 'ledger',
    method: 'delete',
    path: '/api/demo',
    summary: 'Takes the demo shelf away, with whatever was written to it; your own ledger is back.',
    answer: sessionJson,
    gate: 'none',
    replaces: true,
    run: (asked) => exchange(asked, false),
  }),
]
