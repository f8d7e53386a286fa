import {
  moment,
  type ReelRequest,
  recordedJson,
  reelLifeJson,
  reelListJson,
  reelRequest,
  reelShowJson,
} from '../contract/index.ts'
import { describeFact, ledgerNames } from '../ledger/index.ts'
import {
  addReel,
  findReel,
  listReels,
  reelFilter,
  reelLife,
  reelListToJson,
  reelShowToJson,
  reelStory,
  shelfView,
} from '../service/index.ts'
import { accept, type Refusal } from '../units/index.ts'
import { answer, type Endpoint, endpoint, found } from './endpoint.ts'
import { lookedUp, param, typedRowId, wordsParam, yesParam } from './parameter.ts'
import { recordOnce } from './record-once.ts'
import { saidOf, weighingOf } from './told.ts'

const reel = { reel: lookedUp(typedRowId, 'id of the reel') }

const noMoment = (received: string): Refusal => ({
  code: 'moment_malformed',
  message: 'A moment is UTC to the millisecond, as 2026-03-01T18:30:00.000Z.',
  received,
})

/** What the shelf holds. */
export const reelEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listReels',
    tag: 'reels',
    method: 'get',
    path: '/api/reels',
    summary: 'The reels of the shelf, with what is on them.',
    query: {
      material: wordsParam('only reels of this material'),
      colour: wordsParam('only reels with these words in their colour'),
      make: wordsParam('only reels with these words in maker and name'),
      place: wordsParam('only reels that stand there'),
      all: yesParam('with those that are empty or retired, where it is `true`'),
    },
    answer: reelListJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ around, query }) => {
      const view = await shelfView(around.ledger.store())
      if (!view.ok) return view
      const { all, ...filter } = query
      const fits = reelFilter(view.value, filter)
      if (!fits.ok) return fits
      return answer(reelListToJson(listReels(view.value, fits.value, all === 'true')))
    },
  }),
  endpoint<ReelRequest>({
    id: 'addReels',
    tag: 'reels',
    method: 'post',
    path: '/api/reels',
    summary: 'Reels that arrive, with the first weighing where there is one.',
    body: reelRequest,
    answer: recordedJson,
    writes: true,
    gate: 'write',
    run: (asked) => {
      const { body } = asked
      const { gross, gross_when_new, part_used } = body
      const { label_net_g, price, colour, lot, place, count, accept: isAccepted, make } = body
      const claims = { kind: 'opened', label_net_g, price, colour, lot, place }
      return recordOnce(asked, claims, async (handed) => {
        const added = await addReel(handed, {
          ...saidOf(body),
          make,
          ...(label_net_g !== undefined && { label_net_g }),
          ...(price && { price }),
          ...(colour && { colour }),
          ...(lot !== undefined && { lot }),
          ...(place !== undefined && { place }),
          ...(count !== undefined && { count }),
          ...(isAccepted !== undefined && { accept: isAccepted }),
          ...(part_used !== undefined && { partUsed: part_used }),
          ...(gross && { gross: weighingOf(gross) }),
          ...(gross_when_new && { grossWhenNew: weighingOf(gross_when_new) }),
        })
        return added
      })
    },
  }),
  endpoint({
    id: 'showReel',
    tag: 'reels',
    method: 'get',
    path: '/api/reels/{reel}',
    summary: 'All there is to know of one reel, now or at a moment gone by.',
    params: reel,
    query: {
      at: param(moment, 'a moment: the net as it was then', noMoment),
      known_at: param(moment, 'a moment: by what had been written down then', noMoment),
    },
    answer: reelShowJson,
    gate: 'read',
    // Not of a revision: it names prints, and one kept under another name makes no new revision.
    run: async ({ around, params, query: { at, known_at: knownAt } }) => {
      const store = around.ledger.store()
      const view = await shelfView(store)
      if (!view.ok) return view
      const id = found(findReel(view.value, params['reel']!))
      const moments = { ...(at !== undefined && { at }), ...(knownAt !== undefined && { knownAt }) }
      const story = reelStory(view.value, id, moments)
      if (!story.ok) return story
      const names = ledgerNames(view.value.rows, await store.prints())
      const what = story.value.card.facts.map(({ fact }) => describeFact(fact, names))
      return answer(reelShowToJson({ ...story.value, ...moments, what }))
    },
  }),
  endpoint({
    id: 'showReelLife',
    tag: 'reels',
    method: 'get',
    path: '/api/reels/{reel}/life',
    summary: 'What a reel held along its life, to draw it as a line.',
    params: reel,
    answer: reelLifeJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ around, params }) => {
      const view = await shelfView(around.ledger.store())
      if (!view.ok) return view
      const id = found(findReel(view.value, params['reel']!))
      return accept({ json: reelLife(view.value, id) })
    },
  }),
]
