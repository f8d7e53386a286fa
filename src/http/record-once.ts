import { type FactJson, idLength, readId } from '../contract/index.ts'
import type { Recorded, ShelfView, Weighed } from '../service/index.ts'
import { findRow, recordedToJson, reelNow, shelfView } from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Answer, type Asked, answer } from './endpoint.ts'

interface Told {
  readonly recorded?: Recorded
  readonly weighed?: Weighed
}

/**
 * Writes facts down, once: a client that did not hear the answer posts the same id again, and is
 * answered as if it had. Another fact with an id that is there is refused as `id_taken`.
 *
 * @param claims - what the fact must say to be the same; its `make` by id or as a person calls it
 */
export const recordOnce = async <B extends { readonly id?: string; readonly by?: string }>(
  asked: Asked<B>,
  claims: Readonly<Record<string, unknown>>,
  write: (handed: ReturnType<Asked<B>['handed']>) => Promise<Outcome<Told>>,
): Promise<Outcome<Answer>> => {
  const handed = asked.handed(asked.body.by)
  const { id } = asked.body
  const there = id === undefined ? undefined : await handed.store.fact(id)
  if (there !== undefined) {
    const view = await shelfView(handed.store)
    if (!view.ok) return view
    return says(there, { ...claims, make: plainMake(view.value, claims['make']) })
      ? again(view.value, there)
      : refuse({
          code: 'id_taken',
          message: 'Another fact has this id: what was posted was not written down. Use a new id.',
          received: there.id,
        })
  }
  const told = await write(handed)
  if (!told.ok) return told
  const { recorded, weighed } = told.value
  return accept({
    status: recorded === undefined ? 200 : 201,
    json: recordedToJson(recorded, weighed),
  })
}

/** The same answer as before, but for what the reels were then. */
const again = (view: ShelfView, fact: FactJson): Outcome<Answer> => {
  const { cards, estimate } = view
  const reel = 'reel' in fact ? fact.reel : undefined
  const card = reel === undefined ? undefined : cards.get(reel)
  const isReckoned = card !== undefined && estimate.book.reelAt.has(card.id)
  const recorded: Recorded = {
    facts: [fact],
    rows: [],
    prints: [],
    notes: ['This was written down before; nothing was counted twice.'],
    view,
    reels: [],
  }
  if (card === undefined || !isReckoned) return answer(recordedToJson(recorded))
  const now = reelNow(view, card.id)
  return answer(recordedToJson({ ...recorded, reels: [{ reel: card.id, before: now, now }] }))
}

const says = (there: unknown, claim: unknown): boolean => {
  if (typeof claim !== 'object' || claim === null) return there === claim
  return (
    typeof there === 'object' &&
    there !== null &&
    Object.entries(claim).every(
      ([key, value]) =>
        value === undefined || says((there as Readonly<Record<string, unknown>>)[key], value),
    )
  )
}

/** The id of a make, of what a person typed; that itself where it is no make. */
const plainMake = ({ rows }: ShelfView, typed: unknown): unknown => {
  if (typeof typed !== 'string') return typed
  const make = findRow(rows, 'make', typed)
  return make.ok ? make.value.id : typed
}

/** The id of a reel as the ledger has it, of one that a person typed. */
export const plainReel = (typed: string | undefined): string | undefined => {
  if (typed === undefined) return undefined
  const id = readId(typed, idLength.row)
  return id.ok ? id.value : typed
}
