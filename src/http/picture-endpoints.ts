import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import {
  type Query,
  type QueryReaders,
  readQuery,
  sentPrintOf,
  sentPrintQuery,
} from './sent-print.ts'
import type { PictureAsked } from './surroundings.ts'

const mediaTypes = { svg: 'image/svg+xml', png: 'image/png' } as const

const kindOf = (typed: string): Outcome<PictureAsked['kind']> =>
  typed === 'svg' || typed === 'png'
    ? accept(typed)
    : refuse({
        code: 'picture_kind_unknown',
        message: 'A picture is svg or png.',
        expected: 'svg, png',
        received: typed,
      })

const layerOf = (typed: string): Outcome<number> =>
  /^[1-9]\d{0,5}$/.test(typed.trim())
    ? accept(Number(typed))
    : refuse({
        code: 'layer_malformed',
        message: `"${typed}" is no layer. The first is 1.`,
        received: typed,
      })

const readers: QueryReaders<PictureAsked> = {
  kind: ['kind', kindOf],
  layer: ['layer', layerOf],
  member: ['member', accept],
}

const askedOf = (query: Query): Outcome<PictureAsked> => {
  const sent = sentPrintOf(query)
  if (!sent.ok) return sent
  const wanted = readQuery(readers, query)
  return wanted.ok ? accept({ kind: 'svg', ...sent.value, ...wanted.value }) : wanted
}

/** Alone in a browser a picture is seen as it is meant, and can do nothing. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"

/** Pictures of print files; nothing is kept of them. */
export const pictureEndpoints: readonly Endpoint[] = [
  endpoint<ReadableStream<Uint8Array>>({
    id: 'drawPicture',
    tag: 'prints',
    method: 'post',
    path: '/api/pictures',
    summary:
      'A picture of the print file sent, plain, gzip or zip: from the side, to scale, or one layer of it from above. Nothing is kept.',
    query: {
      kind: '`svg` unless `png`',
      layer:
        'what is laid down in this layer, seen from above; the print from the side unless given',
      member: 'which print of a zip with several',
      ...sentPrintQuery,
    },
    body: 'application/octet-stream',
    answer: Object.values(mediaTypes),
    limit: 2 ** 31,
    gate: 'none',
    run: async ({ around, query, body }) => {
      const asked = askedOf(query)
      if (!asked.ok) return asked
      const picture = await around.picture(body, asked.value, around.now())
      if (!picture.ok) return picture
      return accept({
        response: new Response(picture.value, {
          headers: {
            'content-type': mediaTypes[asked.value.kind],
            'content-security-policy': policy,
            'cache-control': 'no-store',
          },
        }),
      })
    },
  }),
]
