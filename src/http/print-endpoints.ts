import { type PrintRowJson, printRowJson, printsJson } from '../contract/index.ts'
import { accept, refuse } from '../units/index.ts'
import { type Endpoint, endpoint, NotFound } from './endpoint.ts'

const print = { print: 'SHA-256 of the file, with /NAME for a member of a zip' }

const absent = (id: string): NotFound =>
  new NotFound({ code: 'print_unknown', message: 'No such print was kept.', received: id })

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
