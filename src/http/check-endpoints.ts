import {
  type CheckInTurnRequest,
  type CheckReelsRequest,
  type CheckShelfRequest,
  checkInTurnRequest,
  checkJson,
  checkReelsRequest,
  checkShelfRequest,
  checksJson,
  type OfShelfRequest,
  type PrintAskedRequest,
  shelfCheckJson,
  type WhereAskedRequest,
} from '../contract/index.ts'
import {
  checkInTurn,
  checkOverShelf,
  checkReels,
  familyOf,
  type PrintAsked,
  type ReelsAsked,
  shelfView,
} from '../service/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { ShelfAnswers } from './shelf-answers.ts'
import { reelForToolOf } from './told.ts'

type Where = Pick<ReelsAsked, 'printer' | 'told' | 'firmware' | 'confidence'>

const whereOf = ({
  printer,
  firmware,
  confidence,
  feed_factor,
  start_allowance_mm,
  tail_mm,
}: WhereAskedRequest): Outcome<Where> => {
  const family = firmware === undefined ? accept(firmware) : familyOf(firmware)
  if (!family.ok) return family
  return accept({
    ...(printer !== undefined && { printer }),
    ...(family.value !== undefined && { firmware: family.value }),
    ...(confidence !== undefined && { confidence }),
    told: {
      ...(feed_factor && { feed_factor }),
      ...(start_allowance_mm && { start_allowance_mm }),
      ...(tail_mm && { tail_mm }),
    },
  })
}

type Print = NonNullable<PrintAsked['print']>

const keptOf = async (store: Store, id: string): Promise<Outcome<Print>> => {
  const print = await store.print(id)
  return print === undefined
    ? refuse({
        code: 'print_unknown',
        message: 'No such print was kept. Put it there first.',
        received: id,
      })
    : accept(print)
}

const askedOf = async (
  store: Store,
  body: PrintAskedRequest,
): Promise<Outcome<PrintAsked & Where & { readonly start?: number }>> => {
  const where = whereOf(body)
  if (!where.ok) return where
  const { print: id, length_mm, mass, cut_short: cutShort, after_layer: afterLayer } = body
  const { stretch, start_at: startAt } = body
  const print = id === undefined ? undefined : await keptOf(store, id)
  if (print?.ok === false) return print
  return accept({
    ...where.value,
    ...(print && { print: print.value }),
    ...(length_mm !== undefined && { length_mm }),
    ...(mass && { mass }),
    ...(cutShort !== undefined && { cutShort }),
    ...(afterLayer !== undefined && { afterLayer }),
    ...(stretch !== undefined && { stretch }),
    ...(startAt !== undefined && { start: Date.parse(startAt) }),
  })
}

const filterOf = ({
  material,
  colour,
  make,
  place,
  diameter_mm,
  all = false,
  most,
}: OfShelfRequest) => ({
  ...(material !== undefined && { material }),
  ...(colour !== undefined && { colour }),
  ...(make !== undefined && { make }),
  ...(place !== undefined && { place }),
  ...(diameter_mm !== undefined && { diameter_mm }),
  ...(most !== undefined && { most }),
  all,
})

/** Of prints in turn so many reels are told for each tool. */
const mostInTurn = 5

const answers = new ShelfAnswers()

/** Will it finish? Asked by POST, because much can be told; nothing is written down. */
export const checkEndpoints: readonly Endpoint[] = [
  endpoint<CheckShelfRequest>({
    id: 'checkShelf',
    tag: 'checks',
    method: 'post',
    path: '/api/checks/shelf',
    summary: 'Which reels of the shelf could do a print.',
    body: checkShelfRequest,
    answer: shelfCheckJson,
    gate: 'read',
    run: async ({ around, body }) => {
      const store = around.ledger.store()
      const view = await shelfView(store)
      if (!view.ok) return view
      // As it was kept last: a print kept anew is no new revision of the store.
      const print = body.print === undefined ? undefined : await store.printHeading(body.print)
      const question = { asked: body, print }
      const known = answers.find(view.value, question)
      if (known !== undefined) return accept({ bytes: known })
      const asked = await askedOf(store, body)
      if (!asked.ok) return asked
      const checked = checkOverShelf(view.value, { ...asked.value, ...filterOf(body) })
      if (!checked.ok) return checked
      const bytes = new TextEncoder().encode(JSON.stringify(checked.value))
      answers.keep(view.value, question, bytes)
      return accept({ bytes })
    },
  }),
  endpoint<CheckReelsRequest>({
    id: 'checkReels',
    tag: 'checks',
    method: 'post',
    path: '/api/checks/reels',
    summary:
      'Whether reels will finish a print: those of the shelf that are named, weighed or measured now or not, and any that are told here. Where neither a reel nor a printer of the shelf is named, the shelf is not asked.',
    body: checkReelsRequest,
    answer: checkJson,
    gate: 'read',
    run: async ({ around, body }) => {
      const store = around.ledger.store()
      const asked = await askedOf(store, body)
      if (!asked.ok) return asked
      const view = await shelfView(store)
      if (!view.ok) return view
      const reels = body.reels.map(reelForToolOf)
      const checked = checkReels(view.value, around, { ...asked.value, reels })
      return checked.ok ? accept({ json: checked.value }) : checked
    },
  }),
  endpoint<CheckInTurnRequest>({
    id: 'checkInTurn',
    tag: 'checks',
    method: 'post',
    path: '/api/checks/in-turn',
    summary:
      'Several prints on one printer, each begun when the one before is done and taken off: which reels could do each, or whether the reels told do them all.',
    body: checkInTurnRequest,
    answer: checksJson,
    gate: 'read',
    run: async ({ around, body }) => {
      const store = around.ledger.store()
      const where = whereOf(body)
      if (!where.ok) return where
      const prints: { print: Print; cutShort?: boolean }[] = []
      for (const { print: id, cut_short: cutShort } of body.prints) {
        // oxlint-disable-next-line no-await-in-loop -- a print may be large, and most are asked once
        const print = await keptOf(store, id)
        if (!print.ok) return print
        prints.push({ print: print.value, ...(cutShort !== undefined && { cutShort }) })
      }
      const view = await shelfView(store)
      if (!view.ok) return view
      const checked = checkInTurn(view.value, around, {
        ...where.value,
        most: mostInTurn,
        ...filterOf(body.of_shelf ?? {}),
        prints,
        start: Date.parse(body.start_at),
        ...(body.reels && { reels: body.reels.map(reelForToolOf) }),
      })
      return checked.ok ? accept({ json: checked.value }) : checked
    },
  }),
]
