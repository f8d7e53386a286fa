import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import type { CopyAsked } from './surroundings.ts'

type Query = Readonly<Record<string, string | undefined>>

const askedOf = (query: Query): Outcome<CopyAsked> => {
  const layers = (query['after'] ?? '').split(',').map((one) => one.trim())
  if (layers.some((layer) => !/^[1-9]\d{0,6}$/.test(layer))) {
    return refuse({
      code: 'layer_malformed',
      message: 'Say after which layers to stop, counted from 1: ?after=57,120.',
      received: query['after'] ?? 'nothing',
    })
  }
  const purpose = query['for'] ?? 'change'
  if (purpose !== 'change' && purpose !== 'pause') {
    return refuse({
      code: 'purpose_unknown',
      message: 'A stop is for another reel, ?for=change, or for anything else, ?for=pause.',
      received: purpose,
    })
  }
  const { firmware = '', note, member } = query
  return accept({
    layers: layers.map(Number),
    firmware,
    purpose,
    ...(note !== undefined && { note }),
    ...(member !== undefined && { member }),
  })
}

/** Copies of print files; nothing is kept of them. */
export const copyEndpoints: readonly Endpoint[] = [
  endpoint<ReadableStream<Uint8Array>>({
    id: 'copyWithPauses',
    tag: 'prints',
    method: 'post',
    path: '/api/paused-copies',
    summary:
      'A copy of the print file sent, plain, gzip or zip, that waits for a person after the layers named; read again before it is answered. The copy is machine code, not packed.',
    query: {
      after: 'layers that are finished before a stop, with commas between them',
      firmware: 'family of the printer',
      for: '`change` (another reel) unless `pause`',
      note: 'what to do at the stop',
      member: 'which print of a zip with several',
    },
    body: 'application/octet-stream',
    answer: 'text/x.gcode',
    limit: 2 ** 31,
    gate: 'none',
    run: async ({ around, query, body }) => {
      const asked = askedOf(query)
      if (!asked.ok) return asked
      const copy = await around.pausedCopy(body, asked.value)
      if (!copy.ok) return copy
      const { bytes, sha256 } = copy.value.told
      return accept({
        response: new Response(copy.value.bytes, {
          headers: {
            'content-type': 'text/x.gcode',
            'content-length': `${bytes}`,
            'content-disposition': 'attachment; filename="print-with-stops.gcode"',
            'cache-control': 'no-store',
            etag: `"${sha256}"`,
          },
        }),
      })
    },
  }),
]
