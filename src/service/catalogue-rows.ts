import type { CatalogueRowJson, MakeRowJson } from '../contract/index.ts'
import { withoutMaker } from '../ledger/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findRow, folded, type NamedKind, type RowOf, rowName, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { newRowId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { pathHolds } from './printer-told.ts'
import { type Recorded, record } from './record.ts'
import { withItsStep } from './scale-told.ts'

/** A row without what the ledger gives it. */
export type RowTold<K extends NamedKind> = Omit<RowOf<K>, 'id' | 'kind' | 'changed_at'>

/**
 * Sets up a printer, a scale, a person, a material or a make.
 *
 * @returns `name_taken`, `length_too_large`, and as `record`
 */
export const addRow = <K extends NamedKind>(
  handed: HandedIn,
  kind: K,
  told: RowTold<K>,
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const row = {
      kind,
      id: newRowId(handed, (id) => view.rows.some((each) => each.id === id)),
      changed_at: new Date(handed.now()).toISOString(),
      ...told,
      name: 'maker' in told ? withoutMaker(told.name, String(told.maker)) : told.name.trim(),
    } as unknown as RowOf<K>
    const free = nameFree(view.rows, kind, row)
    if (!free.ok) return free
    const holds = row.kind === 'printer' ? pathHolds(row) : accept(undefined)
    if (!holds.ok) return holds
    return record(handed, view, { facts: [], rows: [row] })
  })

/** The row, unless another of its kind has its name. */
const nameFree = <K extends NamedKind>(
  rows: readonly CatalogueRowJson[],
  kind: K,
  row: RowOf<K>,
): Outcome<RowOf<K>> => {
  const name = folded(rowName(row))
  const same = rowsOf(rows, kind).find(
    (each) => each.id !== row.id && folded(rowName(each)) === name,
  )
  if (same === undefined) return accept(row)
  return refuse({
    code: 'name_taken',
    message: `There is a ${kind} "${rowName(same)}" already (${same.id}). Change it with ${kind} change, or choose another name.`,
    received: rowName(row),
  })
}

/** What changes of a row; null: it is not known any more. */
export type RowChange<K extends NamedKind> = {
  readonly [P in keyof RowTold<K>]?: RowTold<K>[P] | null
}

/**
 * Changes what is known of one; what is not told stays, and so what others tell of it meanwhile.
 *
 * @param typed - name or id
 * @returns `nothing_changed`, `name_taken`, `length_too_large`, as `findRow`, `record`
 */
export const changeRow = <K extends NamedKind>(
  handed: HandedIn,
  kind: K,
  typed: string,
  told: RowChange<K>,
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const found = findRow(view.rows, kind, typed)
    if (!found.ok) return found
    const before: RowOf<K> = found.value
    const step =
      before.kind === 'scale' ? withItsStep(before, told as Readonly<Record<string, unknown>>) : {}
    const whole = { ...before, ...told, ...step, name: (told.name ?? before.name).trim() }
    const named =
      before.kind === 'make' && typeof told.name === 'string'
        ? calledNow(view.rows, before.maker, { name: told.name, ...told })
        : {}
    const changed = Object.fromEntries(
      Object.entries({ ...whole, ...named }).filter(([, value]) => value !== null),
    ) as unknown as RowOf<K>
    if (JSON.stringify(changed) === JSON.stringify(before)) {
      return refuse({
        code: 'nothing_changed',
        message: `Nothing of ${rowName(before)} is told that was not known. Say what to change.`,
      })
    }
    // Names that were doubled before stay so until one of them is changed.
    if (folded(rowName(changed)) !== folded(rowName(before))) {
      const free = nameFree(view.rows, kind, changed)
      if (!free.ok) return free
    }
    const row = { ...changed, changed_at: changedAfter(before, handed.now()) } as CatalogueRowJson
    const holds = row.kind === 'printer' ? pathHolds(row) : accept(undefined)
    if (!holds.ok) return holds
    return record(handed, view, { facts: [], rows: [row] }, [], reelsOf(view, before.id))
  })

/**
 * Maker and name of a make that is called otherwise now. A make is called by both together: a known maker
 * before the name is its maker, the longest of several, unless another is told beside it.
 */
const calledNow = (
  rows: readonly CatalogueRowJson[],
  before: string,
  told: { readonly name: string; readonly maker?: unknown },
): Pick<MakeRowJson, 'maker' | 'name'> => {
  const makers =
    typeof told.maker === 'string'
      ? [told.maker]
      : [before, ...rowsOf(rows, 'make').map(({ maker }) => maker)]
  const name = told.name.trim()
  const maker =
    makers
      .toSorted((one, other) => other.length - one.length)
      .find((one) => withoutMaker(name, one) !== name) ?? makers[0]!
  return { maker, name: withoutMaker(name, maker) }
}

/** The row changed last holds, even where a clock went back. */
export const changedAfter = ({ changed_at }: CatalogueRowJson, now: number): string =>
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
