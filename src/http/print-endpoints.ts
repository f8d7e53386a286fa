import {
  type PrintRowJson,
  printId,
  printRowJson,
  printsJson,
  readJson,
} from '../contract/index.ts'
import { factBounds } from '../ledger/index.ts'
import { filamentDensity } from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint, exchanged, NotFound } from './endpoint.ts'
import { boundedParam, lookedUp, wordsParam, yesParam } from './parameter.ts'
import {
  type Query,
  type QueryReaders,
  readQuery,
  sentPrinterOf,
  sentPrinterQuery,
  sentPrintOf,
  sentPrintQuery,
} from './sent-print.ts'
import type { ReadingAsked } from './surroundings.ts'

const print = { print: lookedUp(printId, 'SHA-256 of the file, with /NAME for a member of a zip') }

const absent = (id: string): NotFound =>
  new NotFound({ code: 'print_unknown', message: 'No such print was kept.', received: id })

const densityOf = (typed: string): Outcome<number> => filamentDensity(Number(typed))

const filamentReaders: QueryReaders<ReadingAsked> = {
  material: ['material', accept],
  density_g_per_cm3: ['density_g_per_cm3', densityOf],
}

const askedOf = (query: Query): Outcome<ReadingAsked> => {
  const sent = sentPrintOf(query)
  if (!sent.ok) return sent
  const filament = readQuery(filamentReaders, query)
  return filament.ok ? accept({ ...filament.value, ...sent.value }) : filament
}

/** Prints as they were read; the files themselves stay where they are. */
export const printEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listPrints',
    tag: 'prints',
    method: 'get',
    path: '/api/prints',
    summary: 'The prints that were kept, latest first.',
    answer: printsJson,
    gate: 'read',
    run: async ({ around }) => {
      const prints = await around.ledger.store().prints()
      return accept({
        json: {
          prints: prints.map(({ id, changed_at, file, bytes }) => ({
            id,
            changed_at,
            file,
            bytes,
          })),
        },
      })
    },
  }),
  endpoint<ReadableStream<Uint8Array>>({
    id: 'readPrint',
    tag: 'prints',
    method: 'post',
    path: '/api/prints',
    summary:
      'Reads the print file sent, plain, gzip or zip, and tells what `read --json` tells; kept where that is asked, so that it can be checked and recorded.',
    query: {
      keep: yesParam(
        'its prints are kept where it is `true`, each under its `sha256`, with `/` and its `member` behind it for one of a zip',
      ),
      ...sentPrinterQuery,
      ...sentPrintQuery,
      material: wordsParam(
        'of the filament; where it is given, the answer has volume and nominal mass',
      ),
      density_g_per_cm3: boundedParam(
        factBounds.density,
        'of the filament, from its sheet; as `material`, and before it',
        filamentDensity,
      ),
    },
    body: 'application/octet-stream',
    answer: readJson,
    limit: 2 ** 31,
    gate: 'none',
    writesLater: true,
    run: async ({ around, gate, query, body }) => {
      const asked = askedOf(query)
      if (!asked.ok) return asked
      const { ledger } = around
      const meant = ledger.number()
      const printer = await sentPrinterOf({ around, gate, query })
      if (!printer.ok) return printer
      // A print is kept as every family reads it: which one runs the printer may change.
      const { firmware, motion } = printer.value
      const wanted = {
        ...(motion && { motion }),
        ...(firmware !== undefined && query['keep'] !== 'true' && { firmware }),
        ...asked.value,
      }
      const read = await around.reading(body, wanted, around.now())
      if (!read.ok) return read
      const { told, rows } = read.value
      if (query['keep'] === 'true') {
        const kept = await gate.write(async () =>
          ledger.number() === meant ? ledger.store().append(rows) : refuse(exchanged),
        )
        if (!kept.ok) return kept
      }
      return accept({ json: told })
    },
  }),
  endpoint({
    id: 'showPrint',
    tag: 'prints',
    method: 'get',
    path: '/api/prints/{print}',
    summary: 'One print with its draw curve.',
    params: print,
    answer: printRowJson,
    gate: 'read',
    run: async ({ around, params }) => {
      const id = params['print']!
      const row = await around.ledger.store().print(id)
      if (row === undefined) throw absent(id)
      return accept({ json: row })
    },
  }),
  endpoint<PrintRowJson>({
    id: 'keepPrint',
    tag: 'prints',
    method: 'put',
    path: '/api/prints/{print}',
    summary: 'Keeps what was read of a print, so that it can be checked and recorded.',
    params: print,
    body: printRowJson,
    answer: printsJson,
    limit: 64 * 2 ** 20,
    gate: 'write',
    run: async ({ around, params, body }) => {
      if (body.id !== params['print']) {
        return refuse({
          code: 'print_differs',
          message: 'The id of the print is not that of the address.',
          expected: params['print'] ?? '',
          received: body.id,
        })
      }
      const kept = await around.ledger.store().append([body])
      if (!kept.ok) return kept
      const { id, changed_at, file, bytes } = body
      return accept({ json: { prints: [{ id, changed_at, file, bytes }] } })
    },
  }),
]
