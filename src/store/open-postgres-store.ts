import { type Dialect, Kysely } from 'kysely'
import type { LedgerRecord } from '../contract/index.ts'
import { accept, type Outcome, type Refusal } from '../units/index.ts'
import { codeOf } from './code-of.ts'
import { postgresFlavour } from './flavour.ts'
import { type Kept, keepStore } from './keep-store.ts'
import { migrate } from './migrate.ts'
import { readRecords } from './read-records.ts'
import type { Store } from './store.ts'
import type { Tables } from './tables.ts'

/**
 * The same store in a PostgreSQL database, for a workshop with a server of its own. Tables are made
 * in the schema that is first on the search path.
 *
 * @param dialect - of Kysely, over the connection pool of the caller's choice; closed with the store
 * @param where - the database's name in sentences
 * @param patience - how long to wait for others, ms
 * @returns the store, or `newer_ledger`
 */
export const openPostgresStore = async (
  dialect: Dialect,
  where = 'The ledger in PostgreSQL',
  patience = 5000,
): Promise<Outcome<Store>> => {
  const db = new Kysely<Tables>({ dialect })
  const migrated = await migrate(db, postgresFlavour, where)
  if (!migrated.ok) {
    await db.destroy()
    return migrated
  }
  const isShared = dialect.createAdapter().supportsMultipleConnections !== false
  const kept: Kept = {
    db,
    where,
    patience,
    refusalOf: (error) => postgresRefusal(error, where),
    snapshot: isShared ? () => frozenRecords(db, where) : () => gatheredRecords(db, where),
    close: () => db.destroy(),
  }
  return accept(keepStore(kept))
}

/** Page by page, in a transaction that holds the moment. */
async function* frozenRecords(
  db: Kysely<Tables>,
  where: string,
): AsyncGenerator<LedgerRecord, void, undefined> {
  const transaction = await db
    .startTransaction()
    .setIsolationLevel('repeatable read')
    .setAccessMode('read only')
    .execute()
  try {
    yield* readRecords(transaction, where)
  } finally {
    await transaction.rollback().execute()
  }
}

/** All at once, where the only connection would otherwise be taken for as long as somebody reads. */
async function* gatheredRecords(
  db: Kysely<Tables>,
  where: string,
): AsyncGenerator<LedgerRecord, void, undefined> {
  yield* await db.transaction().execute(async (transaction) => {
    const all: LedgerRecord[] = []
    for await (const record of readRecords(transaction, where)) all.push(record)
    return all
  })
}

/**
 * What an error of PostgreSQL means for a ledger.
 *
 * @see https://www.postgresql.org/docs/current/errcodes-appendix.html
 */
const postgresRefusal = (error: unknown, where: string): Refusal | undefined => {
  const code = codeOf(error) ?? ''
  // Serialization failure, deadlock, lock not available.
  if (['40001', '40P01', '55P03'].includes(code)) {
    return {
      code: 'busy',
      message: `${where} is being written by others and did not come free in time. Nothing was written; try again.`,
    }
  }
  if (code === '53100') {
    return {
      code: 'disk_full',
      message: `There is no room left on the disk of ${where}. Nothing of this was written; make room and try again.`,
    }
  }
  // Read-only transaction, insufficient privilege.
  if (['25006', '42501'].includes(code)) {
    return {
      code: 'read_only',
      message: `${where} can be read but not written by this user. Nothing was written; ask whoever keeps the database.`,
    }
  }
  return undefined
}
