import type { CatalogueRowJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findRow, folded, type NamedKind, type RowOf, rowName } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { newRowId } from './new-id.ts'
import { type Recorded, record } from './record.ts'
import { shelfView } from './shelf-view.ts'

/** A row without what the ledger gives it. */
export type RowTold<K extends NamedKind> = Omit<RowOf<K>, 'id' | 'kind' | 'changed_at'>

/**
 * Sets up a printer, a scale, a person, a material or a make.
 *
 * @returns `name_taken`, and as `record`
 */
export const addRow = async <K extends NamedKind>(
  handed: HandedIn,
  kind: K,
  told: RowTold<K>,
): Promise<Outcome<Recorded>> => {
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const row = {
    kind,
    id: newRowId(handed, (id) => view.value.rows.some((each) => each.id === id)),
    changed_at: new Date(handed.now()).toISOString(),
    ...told,
    name: told.name.trim(),
  } as unknown as RowOf<K>
  const same = findRow(view.value.rows, kind, rowName(row))
  if (same.ok && folded(rowName(same.value)) === folded(rowName(row))) {
    return refuse({
      code: 'name_taken',
      message: `There is a ${kind} "${rowName(same.value)}" already (${same.value.id}). Change it with ${kind} change, or choose another name.`,
      received: rowName(row),
    })
  }
  return record(handed, view.value, { facts: [], rows: [row] })
}

/**
 * Changes what is known of one; what is not told stays.
 *
 * @param typed - name or id
 * @returns `nothing_changed`, as `findRow`, `record`
 */
export const changeRow = async <K extends NamedKind>(
  handed: HandedIn,
  kind: K,
  typed: string,
  told: Partial<RowTold<K>>,
): Promise<Outcome<Recorded>> => {
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const found = findRow(view.value.rows, kind, typed)
  if (!found.ok) return found
  const before: RowOf<K> = found.value
  const changed = { ...before, ...told } as RowOf<K>
  if (JSON.stringify(changed) === JSON.stringify(before)) {
    return refuse({
      code: 'nothing_changed',
      message: `Nothing of ${rowName(before)} is told that was not known. Say what to change.`,
    })
  }
  const row = { ...changed, changed_at: after(before, handed.now()) } as CatalogueRowJson
  return record(handed, view.value, { facts: [], rows: [row] }, [], reelsOf(view.value, before.id))
}

/** The row changed last holds, even where a clock went back. */
const after = ({ changed_at }: CatalogueRowJson, now: number): string =>
  new Date(Math.max(now, Date.parse(changed_at) + 1)).toISOString()

const reelsOf = (
  {
    cards,
  }: { readonly cards: ReadonlyMap<string, { readonly opened: { readonly make: string } }> },
  make: string,
): readonly string[] =>
  [...cards].filter(([, { opened }]) => opened.make === make).map(([id]) => id)

/** The rows of a kind, in order of their names. */
export const listRows = async <K extends NamedKind>(
  { store }: HandedIn,
  kind: K,
): Promise<Outcome<readonly RowOf<K>[]>> => {
  const rows = (await store.catalogue()).filter((row) => row.kind === kind)
  const named = rows as readonly CatalogueRowJson[] as readonly RowOf<K>[]
  return accept(named.toSorted((a, b) => rowName(a).localeCompare(rowName(b), 'en')))
}
