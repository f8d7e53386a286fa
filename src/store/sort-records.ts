// oxlint-disable no-await-in-loop -- statements of one transaction go one after another
import type { Kysely } from 'kysely'
import type { CatalogueRowJson, FactJson, LedgerRecord, PrintRowJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { chunksOf } from './chunks-of.ts'
import { plainText } from './plain-text.ts'
import { type Bodied, unpackBody } from './record-body.ts'
import type { Tables } from './tables.ts'

/** What stood there, and what of the records comes anew. */
export interface Sorted<R extends LedgerRecord> {
  readonly fresh: readonly Bodied<R>[]
  readonly same: number
  readonly older: number
}

/** What holds of two versions: the one changed last; at the same moment the text decides. */
const isNewer = (one: Version, other: Version): boolean =>
  one.changedAt === other.changedAt ? one.body > other.body : one.changedAt > other.changedAt

interface Version {
  readonly changedAt: string
  readonly body: string
}

const versionOf = ({ record, body }: Bodied<CatalogueRowJson | PrintRowJson>): Version => ({
  changedAt: record.changed_at,
  body,
})

const sortVersions = <R extends CatalogueRowJson | PrintRowJson>(
  records: readonly Bodied<R>[],
  held: ReadonlyMap<string, Version>,
): Sorted<R> => {
  const fresh = new Map<string, Bodied<R>>()
  let same = 0
  let older = 0
  for (const bodied of records) {
    const { id } = bodied.record
    const placed = fresh.get(id)
    const before = placed === undefined ? held.get(id) : versionOf(placed)
    if (before === undefined || isNewer(versionOf(bodied), before)) {
      if (placed !== undefined) older++
      fresh.set(id, bodied)
    } else if (before.body === bodied.body) same++
    else older++
  }
  return { fresh: [...fresh.values()], same, older }
}

export const sortRows = async (
  transaction: Kysely<Tables>,
  rows: readonly Bodied<CatalogueRowJson>[],
): Promise<Outcome<Sorted<CatalogueRowJson>>> => {
  const held = new Map<string, Version & { readonly kind: string }>()
  for (const ids of chunksOf(rows.map(({ record }) => record.id))) {
    const found = await transaction
      .selectFrom('catalogue_row')
      .selectAll()
      .where('id', 'in', ids)
      .execute()
    for (const { id, kind, changed_at, body } of found) {
      held.set(id, { kind, changedAt: changed_at, body })
    }
  }
  const kinds = new Map([...held].map(([id, { kind }]) => [id, kind]))
  for (const { record } of rows) {
    const kind = kinds.get(record.id) ?? record.kind
    if (kind !== record.kind) return idTaken(record, `is the id of another kind: ${kind}`)
    kinds.set(record.id, kind)
  }
  return accept(sortVersions(rows, held))
}

export const sortPrints = async (
  transaction: Kysely<Tables>,
  prints: readonly Bodied<PrintRowJson>[],
): Promise<Sorted<PrintRowJson>> => {
  const moments = new Set(prints.map(({ record }) => record.changed_at))
  const held = new Map<string, Version>()
  for (const { record } of prints) {
    const row = await transaction
      .selectFrom('print')
      .select(['id', 'changed_at'])
      .where('id', '=', plainText(record.id))
      .executeTakeFirst()
    if (row === undefined) continue
    // The curves of another moment decide nothing: only its time does.
    const body = moments.has(row.changed_at) ? await printBody(transaction, record.id) : ''
    held.set(record.id, { changedAt: row.changed_at, body })
  }
  return sortVersions(prints, held)
}

const printBody = async (transaction: Kysely<Tables>, id: string): Promise<string> => {
  const row = await transaction
    .selectFrom('print')
    .select('body')
    .where('id', '=', plainText(id))
    .executeTakeFirstOrThrow()
  return unpackBody(row.body)
}

export const sortFacts = async (
  transaction: Kysely<Tables>,
  facts: readonly Bodied<FactJson>[],
): Promise<Outcome<Sorted<FactJson>>> => {
  const held = new Map<string, string>()
  for (const ids of chunksOf(facts.map(({ record }) => record.id))) {
    const found = await transaction
      .selectFrom('fact')
      .select(['id', 'body'])
      .where('id', 'in', ids)
      .execute()
    for (const { id, body } of found) held.set(id, body)
  }
  const fresh: Bodied<FactJson>[] = []
  for (const bodied of facts) {
    const before = held.get(bodied.record.id)
    if (before === undefined) {
      held.set(bodied.record.id, bodied.body)
      fresh.push(bodied)
    } else if (before !== bodied.body) {
      return idTaken(bodied.record, 'is the id of another fact')
    }
  }
  return accept({ fresh, same: facts.length - fresh.length, older: 0 })
}

const idTaken = ({ kind, id }: LedgerRecord, whose: string): Outcome<never> =>
  refuse({
    code: 'id_taken',
    message: `The ${kind} ${id} can not be written down: ${id} ${whose} already. Give it an id of its own; nothing of this call was written.`,
    received: id,
  })
