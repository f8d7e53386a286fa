import { z } from 'zod'
import { type PausedCopyJson, pausedCopyJson } from '../contract/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { type Asked, type Endpoint, endpoint } from './endpoint.ts'
import { param } from './parameter.ts'
import {
  firmwareParam,
  memberParam,
  type Query,
  sentPrinterOf,
  sentPrinterQuery,
  sentPrintOf,
  sentPrintQuery,
} from './sent-print.ts'
import type { CopyAsked } from './surroundings.ts'

const noLayers = (received: string): Refusal => ({
  code: 'layer_malformed',
  message: 'Say after which layers to stop, counted from 1: ?after=57,120.',
  received,
})

const noPurpose = (received: string): Refusal => ({
  code: 'purpose_unknown',
  message: 'A stop is for another reel, ?for=change, or for anything else, ?for=pause.',
  received,
})

const askedOf = (query: Query): Outcome<CopyAsked> => {
  const { after, note, member } = query
  if (after === undefined) return refuse(noLayers('nothing'))
  const sent = sentPrintOf(query)
  if (!sent.ok) return sent
  return accept({
    ...sent.value,
    layers: after.split(',').map(Number),
    purpose: query['for']?.toLowerCase() === 'pause' ? 'pause' : 'change',
    ...(note !== undefined && { note }),
    ...(member !== undefined && { member }),
  })
}

const common = {
  tag: 'prints',
  method: 'post',
  query: {
    after: {
      ...param(
        z.array(z.int().positive().max(9_999_999)),
        'layers that are finished before a stop, with commas between them',
        noLayers,
      ),
      isRequired: true,
    },
    for: param(z.enum(['change', 'pause']), '`change` (another reel) unless `pause`', noPurpose),
    note: param(z.string(), 'what to do at the stop'),
    member: memberParam,
    ...sentPrinterQuery,
    ...sentPrintQuery,
    firmware: firmwareParam(
      'family of the printer; it has to be known, from here or of the printer',
    ),
  },
  body: 'application/octet-stream',
  limit: 2 ** 31,
  gate: 'none',
  onlyLooks: true,
} as const

const name = 'print-with-stops.gcode'

const copyOf = async (
  asked: Asked<ReadableStream<Uint8Array>>,
): Promise<
  Outcome<{ readonly told: PausedCopyJson; readonly bytes: ReadableStream<Uint8Array> }>
> => {
  const wanted = askedOf(asked.query)
  if (!wanted.ok) return wanted
  const printer = await sentPrinterOf(asked)
  return printer.ok
    ? asked.around.pausedCopy(asked.body, { ...printer.value, ...wanted.value })
    : printer
}

/** Copies of print files; nothing is kept of them. */
export const copyEndpoints: readonly Endpoint[] = [
  endpoint<ReadableStream<Uint8Array>>({
    ...common,
    id: 'copyWithPauses',
    path: '/api/paused-copies',
    summary:
      'A copy of the print file sent, plain, gzip or zip, that waits for a person after the layers named; read again before it is answered. The copy is machine code, not packed.',
    answer: 'text/x.gcode',
    run: async (asked) => {
      const copy = await copyOf(asked)
      if (!copy.ok) return copy
      const { bytes, sha256 } = copy.value.told
      return accept({
        response: new Response(copy.value.bytes, {
          headers: {
            'content-type': 'text/x.gcode',
            'content-length': `${bytes}`,
            'content-disposition': `attachment; filename="${name}"`,
            'cache-control': 'no-store',
            etag: `"${sha256}"`,
          },
        }),
      })
    },
  }),
  endpoint<ReadableStream<Uint8Array>>({
    ...common,
    id: 'tellPauses',
    path: '/api/paused-copies/told',
    summary:
      'What is to be known of that copy, as `pause --json` tells it: where it stops, what the machine does there and needs to be set up for, with the caution. The copy itself is not sent.',
    answer: pausedCopyJson,
    run: async (asked) => {
      const copy = await copyOf(asked)
      if (!copy.ok) return copy
      const { told, bytes } = copy.value
      await bytes.cancel()
      return accept({ json: { ...told, to: name } })
    },
  }),
]
