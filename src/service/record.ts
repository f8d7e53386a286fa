import {
  type CatalogueRowJson,
  type FactJson,
  type LedgerRecord,
  type PrintRowJson,
} from '../contract/index.ts'
import { checkNewFact, recordOf } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { type ReelNow, reelNow } from './reel-now.ts'
import { type ShelfView, shelfView } from './shelf-view.ts'

/** What is to be written down together. */
export interface NewRecords {
  readonly facts: readonly FactJson[]
  readonly rows?: readonly CatalogueRowJson[]
  readonly prints?: readonly PrintRowJson[]
  /** Prints that the facts speak of and that are kept already. */
  readonly kept?: readonly PrintRowJson[]
}

/** What became of a reel. */
export interface ReelChange {
  readonly reel: string
  /** Absent for a reel that was not on the shelf before. */
  readonly before?: ReelNow
  /** Absent for a reel that is no longer on it. */
  readonly now?: ReelNow
}

/** What was written down, and what it did to the reels it is about. */
export interface Recorded {
  readonly facts: readonly FactJson[]
  /** Catalogue rows that are new, or changed. */
  readonly rows: readonly CatalogueRowJson[]
  readonly reels: readonly ReelChange[]
  /** Prints that the facts speak of. */
  readonly prints: readonly { readonly id: string; readonly file: string }[]
  /** What a person should know beside, a sentence each. */
  readonly notes: readonly string[]
  /** The shelf with it. */
  readonly view: ShelfView
}

/**
 * Writes records down in one transaction, and tells what they did to the reels they are about. Where
 * others wrote since the view was made, nothing is written: `overShelf` makes them anew.
 *
 * @param view - the shelf without them
 * @param about - reels to tell of beside those that the facts name
 * @returns refusals of the store, `changed_meanwhile` among them, and those of `recordOf` and
 *   `checkNewFact`
 */
export const record = async (
  { store }: HandedIn,
  view: ShelfView,
  records: NewRecords,
  notes: readonly string[] = [],
  about: readonly string[] = [],
): Promise<Outcome<Recorded>> => {
  const { facts, rows = [], prints = [], kept = [] } = records
  for (const one of [...rows, ...facts]) {
    const checked = recordOf(one)
    if (!checked.ok) return checked
  }
  const sensible = checkAll(view, records)
  if (!sensible.ok) return sensible
  const all: LedgerRecord[] = [...rows, ...prints, ...facts]
  const written = await store.append(all, { ifRevision: view.revision })
  if (!written.ok) return written
  const named = await headingsOf(store, facts, [...prints, ...kept])
  const after = await shelfView(store)
  if (!after.ok) return after
  const reels = new Set([...facts.flatMap(reelOf), ...about])
  return accept({
    facts,
    rows,
    notes,
    prints: named,
    view: after.value,
    reels: [...reels].map((reel) => changeOf(reel, view, after.value)),
  })
}

/** The prints that facts speak of, by their file's name; those at hand are not looked up. */
const headingsOf = async (
  store: HandedIn['store'],
  facts: readonly FactJson[],
  atHand: readonly PrintRowJson[],
): Promise<Recorded['prints']> => {
  const known = atHand.map(({ id, file }) => ({ id, file }))
  const wanted = new Set(
    facts.flatMap((fact) => ('print' in fact && fact.print !== undefined ? [fact.print] : [])),
  )
  for (const { id } of known) wanted.delete(id)
  if (wanted.size === 0) return known
  const kept = await store.prints()
  return [
    ...known,
    ...kept.filter(({ id }) => wanted.has(id)).map(({ id, file }) => ({ id, file })),
  ]
}

/** What `checkNewFact` says of the facts, one after the other. */
const checkAll = (view: ShelfView, { facts, rows = [] }: NewRecords): Outcome<void> => {
  const known = rows.length === 0 ? view.rows : [...view.rows, ...rows]
  // What does not hold and what holds instead need each other; else a fact rests on those before it.
  const isPutRight = facts.some(({ kind }) => kind === 'put-right')
  for (const [place, fact] of facts.entries()) {
    // Reels that arrive together are alike, and their ids are new: one of them is checked.
    if (fact.kind === 'opened' && place > 0 && !isPutRight) continue
    const sensible = checkNewFact(
      fact,
      known,
      view.facts,
      isPutRight ? facts : facts.slice(0, place),
    )
    if (!sensible.ok) return sensible
  }
  return accept(undefined)
}

/** The reel that a fact is about, if any. */
export const reelOf = (fact: FactJson): readonly string[] =>
  'reel' in fact && fact.reel !== undefined ? [fact.reel] : []

const changeOf = (reel: string, before: ShelfView, after: ShelfView): ReelChange => ({
  reel,
  ...(before.cards.has(reel) && { before: reelNow(before, reel) }),
  ...(after.cards.has(reel) && { now: reelNow(after, reel) }),
})
