import {
  type CheckReelsRequest,
  type CheckShelfRequest,
  type CheckToldRequest,
  checkJson,
  checkReelsRequest,
  checkShelfRequest,
  checkToldRequest,
  type PrintAskedRequest,
  shelfCheckJson,
} from '../contract/index.ts'
import {
  checkOverShelf,
  checkReels,
  checkTold,
  type PrintAsked,
  shelfView,
} from '../service/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { ShelfAnswers } from './shelf-answers.ts'
import { reelOf, weighingOf } from './told.ts'

const askedOf = async (
  store: Store,
  {
    print: id,
    cut_short: cutShort,
    after_layer: afterLayer,
    length_mm,
    printer,
    firmware,
  }: PrintAskedRequest,
): Promise<Outcome<PrintAsked>> => {
  const print = id === undefined ? undefined : await store.print(id)
  if (id !== undefined && print === undefined) {
    return refuse({
      code: 'print_unknown',
      message: 'No such print was kept. Put it there first.',
      received: id,
    })
  }
  return accept({
    ...(print && { print }),
    ...(cutShort !== undefined && { cutShort }),
    ...(afterLayer !== undefined && { afterLayer }),
    ...(length_mm !== undefined && { length_mm }),
    ...(printer !== undefined && { printer }),
    ...(firmware !== undefined && { firmware }),
  })
}

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
      const {
        print: _print,
        length_mm: _length,
        cut_short: _cut,
        after_layer: _after,
        ...more
      } = body
      const checked = checkOverShelf(view.value, { ...more, ...asked.value })
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
    summary: 'Whether the reels named will finish a print, weighed or measured now or not.',
    body: checkReelsRequest,
    answer: checkJson,
    gate: 'read',
    run: async ({ around, body }) => {
      const store = around.ledger.store()
      const asked = await askedOf(store, body)
      if (!asked.ok) return asked
      const view = await shelfView(store)
      if (!view.ok) return view
      const { confidence, start_at: startAt } = body
      const checked = checkReels(view.value, around, {
        ...asked.value,
        ...(confidence !== undefined && { confidence }),
        ...(startAt !== undefined && { start: Date.parse(startAt) }),
        reels: body.reels.map(({ weighing, empty_carrier: carrier, cut, ...one }) => ({
          ...one,
          ...(weighing && { weighing: weighingOf(weighing) }),
          ...(carrier && { emptyCarrier: weighingOf(carrier) }),
          ...(cut && { cut: { ...cut, weighing: weighingOf(cut.weighing) } }),
        })),
      })
      return checked.ok ? accept({ json: checked.value }) : checked
    },
  }),
  endpoint<CheckToldRequest>({
    id: 'checkTold',
    tag: 'checks',
    method: 'post',
    path: '/api/checks/told',
    summary: 'Whether reels that are on no shelf will finish a print, by what is told of them.',
    body: checkToldRequest,
    answer: checkJson,
    gate: 'read',
    run: async ({ around, body }) => {
      const store = around.ledger.store()
      const asked = await askedOf(store, body)
      if (!asked.ok) return asked
      const { printer, ...print } = asked.value
      const view = printer === undefined ? undefined : await shelfView(store)
      if (view?.ok === false) return view
      const { confidence, start_at: startAt, feed_factor, start_allowance_mm, tail_mm } = body
      const checked = checkTold({
        ...print,
        ...(confidence !== undefined && { confidence }),
        ...(startAt !== undefined && { start: Date.parse(startAt) }),
        ...(view && printer !== undefined && { onPrinter: { view: view.value, printer } }),
        told: {
          ...(feed_factor && { feed_factor }),
          ...(start_allowance_mm && { start_allowance_mm }),
          ...(tail_mm && { tail_mm }),
        },
        reels: body.reels.map(reelOf),
      })
      return checked.ok ? accept({ json: checked.value }) : checked
    },
  }),
]
