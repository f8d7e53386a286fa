// oxlint-disable no-await-in-loop -- statements of one transaction go one after another
import type { Kysely } from 'kysely'
import {
  type CatalogueRowJson,
  type FactJson,
  isCatalogueRow,
  isPrintRow,
  type LedgerRecord,
  type PrintRowJson,
  referencesOf,
} from '../contract/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { chunksOf } from './chunks-of.ts'
import { firstUnknown } from './first-unknown.ts'
import { plainText } from './plain-text.ts'
import { type Bodied, packBody } from './record-body.ts'
import { type Sorted, sortFacts, sortPrints, sortRows } from './sort-records.ts'
import type { Appended } from './store.ts'
import type { NewFact, Tables } from './tables.ts'

/**
 * Writes records into a transaction that has the lock of writers. Nothing that is refused may be
 * committed.
 *
 * @returns how many came anew, or `id_taken`, `unknown_reference`
 */
export const placeRecords = async (
  transaction: Kysely<Tables>,
  records: readonly Bodied<LedgerRecord>[],
): Promise<Outcome<Appended>> => {
  const rows: Bodied<CatalogueRowJson>[] = []
  const prints: Bodied<PrintRowJson>[] = []
  const facts: Bodied<FactJson>[] = []
  for (const { record, body } of records) {
    if (isCatalogueRow(record)) rows.push({ record, body })
    else if (isPrintRow(record)) prints.push({ record, body })
    else facts.push({ record, body })
  }
  const sortedRows = await sortRows(transaction, rows)
  if (!sortedRows.ok) return sortedRows
  const sortedFacts = await sortFacts(transaction, facts)
  if (!sortedFacts.ok) return sortedFacts
  const sortedPrints = await sortPrints(transaction, prints)

  await placeRows(transaction, sortedRows.value.fresh)
  await placePrints(transaction, sortedPrints.fresh)
  const fresh = sortedFacts.value.fresh
  await placeReels(transaction, fresh)
  // What was placed above counts as known, and so do the facts of this call.
  const unknown = await firstUnknown(transaction, fresh)
  if (unknown !== undefined) return unknown
  await placeFacts(transaction, fresh)

  const all = [sortedRows.value, sortedPrints, sortedFacts.value]
  const sum = (of: (sorted: Sorted<LedgerRecord>) => number): number =>
    all.reduce((before, sorted) => before + of(sorted), 0)
  return accept({
    written: sum((sorted) => sorted.fresh.length),
    same: sum((sorted) => sorted.same),
    older: sum((sorted) => sorted.older),
  })
}

const placeRows = async (
  transaction: Kysely<Tables>,
  fresh: readonly Bodied<CatalogueRowJson>[],
): Promise<void> => {
  const values = fresh.map(({ record: { id, kind, changed_at }, body }) => ({
    id,
    kind,
    changed_at,
    body,
  }))
  for (const chunk of chunksOf(values)) {
    await transaction
      .insertInto('catalogue_row')
      .values(chunk)
      .onConflict((conflict) =>
        conflict.column('id').doUpdateSet((build) => ({
          changed_at: build.ref('excluded.changed_at'),
          body: build.ref('excluded.body'),
        })),
      )
      .execute()
  }
}

const placePrints = async (
  transaction: Kysely<Tables>,
  fresh: readonly Bodied<PrintRowJson>[],
): Promise<void> => {
  for (const { record, body } of fresh) {
    const held = {
      changed_at: record.changed_at,
      file: plainText(record.file),
      bytes: record.bytes,
      body: packBody(body),
    }
    await transaction
      .insertInto('print')
      .values({ id: plainText(record.id), ...held })
      .onConflict((conflict) => conflict.column('id').doUpdateSet(held))
      .execute()
  }
}

const placeReels = async (
  transaction: Kysely<Tables>,
  facts: readonly Bodied<FactJson>[],
): Promise<void> => {
  const opened = facts.flatMap(({ record }) => (record.kind === 'opened' ? [record.reel] : []))
  for (const ids of chunksOf([...new Set(opened)])) {
    await transaction
      .insertInto('reel')
      .values(ids.map((id) => ({ id })))
      .onConflict((conflict) => conflict.column('id').doNothing())
      .execute()
  }
}

const placeFacts = async (
  transaction: Kysely<Tables>,
  facts: readonly Bodied<FactJson>[],
): Promise<void> => {
  const { last } = await transaction
    .selectFrom('fact')
    .select(({ fn }) => fn.max('sequence').as('last'))
    .executeTakeFirstOrThrow()
  let sequence = Number(last ?? 0)
  const values = facts.map(({ record, body }): NewFact => {
    const { print, ...others } = referencesOf(record)
    sequence++
    return {
      sequence,
      id: record.id,
      kind: record.kind,
      at: record.at,
      recorded_at: record.recorded_at,
      reel: others.reel ?? null,
      make: others.make ?? null,
      printer: others.printer ?? null,
      scale: others.scale ?? null,
      person: others.person ?? null,
      print: print === undefined ? null : plainText(print),
      voids: others.voids ?? null,
      instead: others.instead ?? null,
      body,
    }
  })
  for (const chunk of chunksOf(values)) {
    await transaction.insertInto('fact').values(chunk).execute()
  }
}
