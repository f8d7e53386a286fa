import { z } from 'zod'
import { moment, printerAsked, reelsAsked } from '../contract/index.ts'
import { findReel, type ReelForTool, type ShelfView, shelfView } from '../service/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { jsonParam, lookedUp, param, rowParam, typedRowId } from './parameter.ts'
import {
  memberParam,
  type Query,
  type QueryReaders,
  readQuery,
  sentPrinterOf,
  sentPrintOf,
  sentPrintQuery,
} from './sent-print.ts'
import type { PictureAsked, ReachAsked } from './surroundings.ts'
import { reelForToolOf } from './told.ts'

const mediaTypes = { svg: 'image/svg+xml', png: 'image/png' } as const

const noKind = (received: string): Refusal => ({
  code: 'picture_kind_unknown',
  message: 'A picture is svg or png.',
  expected: 'svg, png',
  received,
})

const noLayer = (received: string): Refusal => ({
  code: 'layer_malformed',
  message: `"${received}" is no layer. The first is 1.`,
  received,
})

const noConfidence = (received: string): Refusal => ({
  code: 'confidence_out_of_range',
  message: `"${received}" is no use for a call. Expected more than 0.5 and less than 1, as 0.95.`,
  received,
})

const noStart = (received: string): Refusal => ({
  code: 'start_malformed',
  message: `"${received}" is no moment. Write it in UTC to the millisecond, as 2026-03-01T18:30:00.000Z.`,
  received,
})

const noStretch = (received: string): Refusal => ({
  code: 'stretch_malformed',
  message: `"${received}" is no count. 1 is the part up to the first planned reel change.`,
  received,
})

const number = (typed: string): Outcome<number> => accept(Number(typed))

const readers: QueryReaders<PictureAsked> = {
  kind: ['kind', (typed) => accept(typed.toLowerCase())],
  layer: ['layer', number],
  member: ['member', accept],
}

/** What is told of the printer, as it stands in a check. */
const { feed_factor, start_allowance_mm, tail_mm } = printerAsked

const measured =
  (schema: z.ZodType) =>
  (typed: string): Outcome<unknown> =>
    accept(schema.parse(JSON.parse(typed)))

const toldReaders: QueryReaders<NonNullable<ReachAsked['told']>> = {
  feed_factor: ['feed_factor', measured(feed_factor)],
  start_allowance_mm: ['start_allowance_mm', measured(start_allowance_mm)],
  tail_mm: ['tail_mm', measured(tail_mm)],
}

const reachReaders: QueryReaders<Omit<ReachAsked, 'told' | 'reels'>> = {
  printer: ['printer', accept],
  confidence: ['confidence', number],
  start_at: ['start', (typed) => accept(Date.parse(typed))],
  stretch: ['stretch', number],
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
  const { reel: ids, reels: typed } = query
  if (ids === undefined && typed === undefined) {
    const one = Object.keys({ ...reachReaders, ...toldReaders }).find(
      (name) => name !== 'printer' && query[name] !== undefined,
    )
    if (one === undefined) return accept({})
    return refuse({
      code: 'picture_needs_a_reel',
      message: `${one} is about how far a reel goes: name the reel, as ?reel=K7RMY.`,
    })
  }
  if (ids !== undefined && typed !== undefined) {
    return refuse({
      code: 'reels_told_twice',
      message: 'reel and reels are two ways to say which reels: give one of them.',
    })
  }
  const more = readQuery(reachReaders, query)
  if (!more.ok) return more
  const told = readQuery(toldReaders, query)
  if (!told.ok) return told
  const view = await look()
  if (!view.ok) return view
  const reels: ReelForTool[] = []
  const asked =
    typed === undefined
      ? (ids ?? '').split(',').map((reel) => ({ reel }))
      : reelsAsked.parse(JSON.parse(typed)).map(reelForToolOf)
  for (const each of asked) {
    const reel = 'reel' in each ? findReel(view.value, each.reel) : undefined
    if (reel?.ok === false) return reel
    reels.push(reel === undefined ? each : { ...each, reel: reel.value })
  }
  return accept({ reach: { ...more.value, told: told.value, reels, view: view.value } })
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
      'A picture of the print file sent, plain, gzip or zip: from the side, to scale, or one layer of it from above; with `reel` or `reels` how far reels go. Nothing is kept.',
    query: {
      kind: param(z.enum(['svg', 'png']), '`svg` unless `png`', noKind),
      layer: param(
        z.int().positive().max(999_999),
        'what is laid down in this layer, seen from above; the print from the side unless given',
        noLayer,
      ),
      member: memberParam,
      reel: lookedUp(
        z.array(typedRowId),
        'ids of the reels that are to do it, with commas between them in the order of the tools: it is filled as far as they go, with where the weakest may run dry and the last safe change',
      ),
      reels: jsonParam(
        reelsAsked,
        'in the place of `reel`, and as in `check_reels_request`, written as JSON: with what is weighed or measured of them now, and reels that are only told',
      ),
      printer: rowParam(
        'name or id: its firmware, and how it moves, unless told; with reels the only one in use unless given, and of several the one that would take most',
      ),
      feed_factor: jsonParam(
        feed_factor,
        'with reels: what the printer feeds per millimetre asked, as `{"value": 1, "u": 0.01}`; it goes before what is learnt',
      ),
      start_allowance_mm: jsonParam(
        start_allowance_mm,
        'with reels: filament used before the file begins, in the same way',
      ),
      tail_mm: jsonParam(
        tail_mm,
        'with reels: last length that can not be printed, in the same way',
      ),
      confidence: param(z.number().gt(0.5).lt(1), 'with reels: 0.95 unless given', noConfidence),
      start_at: param(
        moment,
        'with reels: when it is started; times are moments then, by the clock of the server',
        noStart,
      ),
      stretch: param(
        z.int().positive().max(9999),
        'with reels: only this part between the reel changes that the file plans; 1 is the part up to the first',
        noStretch,
      ),
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
