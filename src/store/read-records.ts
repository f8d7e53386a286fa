// oxlint-disable no-await-in-loop -- page by page, so that a long ledger is never in memory as a whole
import type { Kysely } from 'kysely'
import type { CatalogueRowJson, FactJson, LedgerRecord, PrintRowJson } from '../contract/index.ts'
import { damaged } from './damaged.ts'
import { unpackBody } from './record-body.ts'
import { StoreFault } from './store-fault.ts'
import type { Tables } from './tables.ts'

/** Catalogue rows in the order of their ids. */
export const readRows = async (
  db: Kysely<Tables>,
  where: string,
): Promise<readonly CatalogueRowJson[]> => {
  const rows = await db.selectFrom('catalogue_row').select('body').orderBy('id').execute()
  return rows.map(({ body }) => parsedBody<CatalogueRowJson>(body, where))
}

/** Facts as written down; of one reel if given. */
export const readFacts = async (
  db: Kysely<Tables>,
  where: string,
  reel?: string,
): Promise<readonly FactJson[]> => {
  const all = db.selectFrom('fact').select('body').orderBy('sequence')
  const wanted = reel === undefined ? all : all.where('reel', '=', reel)
  return (await wanted.execute()).map(({ body }) => parsedBody<FactJson>(body, where))
}

/** @param id - plain, as it stands in the column */
export const readPrint = async (
  db: Kysely<Tables>,
  where: string,
  id: string,
): Promise<PrintRowJson | undefined> => {
  const row = await db.selectFrom('print').select('body').where('id', '=', id).executeTakeFirst()
  return row && parsedPrint(row.body, where)
}

/** Catalogue rows, prints, facts. The database has to stand still for as long. */
export async function* readRecords(
  db: Kysely<Tables>,
  where: string,
): AsyncGenerator<LedgerRecord, void, undefined> {
  yield* await readRows(db, where)
  // A few prints at a time: each may be megabytes.
  for (let after = ''; ; ) {
    const page = await db
      .selectFrom('print')
      .select(['id', 'body'])
      .where('id', '>', after)
      .orderBy('id')
      .limit(8)
      .execute()
    for (const { id, body } of page) {
      yield parsedPrint(body, where)
      after = id
    }
    if (page.length === 0) break
  }
  for (let after = 0; ; ) {
    const page = await db
      .selectFrom('fact')
      .select(['sequence', 'body'])
      .where('sequence', '>', after)
      .orderBy('sequence')
      .limit(1000)
      .execute()
    for (const { sequence, body } of page) {
      yield parsedBody<FactJson>(body, where)
      after = Number(sequence)
    }
    if (page.length === 0) break
  }
}

/**
 * A record as it was written: what went in was valid.
 *
 * @throws StoreFault `damaged`
 */
// oxlint-disable-next-line typescript/no-unnecessary-type-parameters -- named where it is called
export const parsedBody = <R extends LedgerRecord>(body: string, where: string): R => {
  try {
    return JSON.parse(body) as R
  } catch (error) {
    throw new StoreFault(damaged(where, 'a record in it is no longer readable'), error)
  }
}

const parsedPrint = (packed: Uint8Array, where: string): PrintRowJson => {
  let body = ''
  try {
    body = unpackBody(packed)
  } catch (error) {
    throw new StoreFault(damaged(where, 'a print in it is no longer readable'), error)
  }
  return parsedBody<PrintRowJson>(body, where)
}
