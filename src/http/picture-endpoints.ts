import { moment } from '../contract/index.ts'
import { findReel, type ShelfView, shelfView } from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import {
  type Query,
  type QueryReaders,
  readQuery,
  sentPrinterOf,
  sentPrintOf,
  sentPrintQuery,
} from './sent-print.ts'
import type { PictureAsked, ReachAsked } from './surroundings.ts'

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

const confidenceOf = (typed: string): Outcome<number> =>
  Number(typed) > 0.5 && Number(typed) < 1
    ? accept(Number(typed))
    : refuse({
        code: 'confidence_out_of_range',
        message: `"${typed}" is no use for a call. Expected more than 0.5 and less than 1, as 0.95.`,
        received: typed,
      })

const startOf = (typed: string): Outcome<number> =>
  moment.safeParse(typed).success
    ? accept(Date.parse(typed))
    : refuse({
        code: 'start_malformed',
        message: `"${typed}" is no moment. Write it in UTC to the millisecond, as 2026-03-01T18:30:00.000Z.`,
        received: typed,
      })

const stretchOf = (typed: string): Outcome<number> =>
  /^[1-9]\d{0,3}$/.test(typed)
    ? accept(Number(typed))
    : refuse({
        code: 'stretch_malformed',
        message: `"${typed}" is no count. 1 is the part up to the first planned reel change.`,
        received: typed,
      })

const reachReaders: QueryReaders<ReachAsked> = {
  reel: ['reels', (typed) => accept(typed.split(','))],
  printer: ['printer', accept],
  confidence: ['confidence', confidenceOf],
  start_at: ['start', startOf],
  stretch: ['stretch', stretchOf],
}

const askedOf = (query: Query): Outcome<PictureAsked> => {
  const sent = sentPrintOf(query)
  if (!sent.ok) return sent
  const wanted = readQuery(readers, query)
  return wanted.ok ? accept({ kind: 'svg', ...sent.value, ...wanted.value }) : wanted
}

/** What is to be shown of reels, if anything is. */
const reachOf = async (
  query: Query,
  look: () => Promise<Outcome<ShelfView>>,
): Promise<Outcome<Pick<PictureAsked, 'reach'>>> => {
  const told = readQuery(reachReaders, query)
  if (!told.ok) return told
  const { reels: typed, ...more } = told.value
  if (typed === undefined) {
    const one = Object.keys(reachReaders).find(
      (name) => name !== 'printer' && query[name] !== undefined,
    )
    if (one === undefined) return accept({})
    return refuse({
      code: 'picture_needs_a_reel',
      message: `${one} is about how far a reel goes: name the reel, as ?reel=K7RMY.`,
    })
  }
  const view = await look()
  if (!view.ok) return view
  const reels: string[] = []
  for (const each of typed) {
    const reel = findReel(view.value, each)
    if (!reel.ok) return reel
    reels.push(reel.value)
  }
  return accept({ reach: { ...more, reels, view: view.value } })
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
      'A picture of the print file sent, plain, gzip or zip: from the side, to scale, or one layer of it from above; with `reel` how far reels of the shelf go. Nothing is kept.',
    query: {
      kind: '`svg` unless `png`',
      layer:
        'what is laid down in this layer, seen from above; the print from the side unless given',
      member: 'which print of a zip with several',
      reel: 'ids of the reels that are to do it, with commas between them in the order of the tools: it is filled as far as they go, with where the weakest may run dry and the last safe change',
      printer:
        'name or id: its firmware, and how it moves, unless told; with `reel` the only one in use unless given, and of several the one that would take most',
      confidence: 'of a picture with `reel`: 0.95 unless given',
      start_at:
        'of a picture with `reel`: when it is started; times are moments then, by the clock of the server',
      stretch:
        'of a picture with `reel`: only this part between the reel changes that the file plans; 1 is the part up to the first',
      ...sentPrintQuery,
    },
    body: 'application/octet-stream',
    answer: Object.values(mediaTypes),
    limit: 2 ** 31,
    gate: 'none',
    onlyLooks: true,
    run: async ({ around, gate, query, body }) => {
      const asked = askedOf(query)
      if (!asked.ok) return asked
      const reach = await reachOf(query, () => gate.read(() => shelfView(around.ledger.store())))
      if (!reach.ok) return reach
      const printer = await sentPrinterOf({ around, gate, query })
      if (!printer.ok) return printer
      const wanted = { ...printer.value, ...asked.value, ...reach.value }
      const picture = await around.picture(body, wanted, around.now())
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
