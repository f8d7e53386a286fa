import { accept, type Outcome } from '../units/index.ts'
import { sqliteFlavour } from './flavour.ts'
import { keepStore } from './keep-store.ts'
import { loadSqlite } from './load-sqlite.ts'
import { migrate } from './migrate.ts'
import { readRecords } from './read-records.ts'
import { kyselyOver, settle } from './sqlite-connection.ts'
import { sqliteRefusal } from './sqlite-refusal.ts'
import type { Store } from './store.ts'

const where = 'The ledger in memory'

/**
 * An empty store that is gone when it is closed: for a file of facts without a ledger, and for tests.
 *
 * @returns the store, or `node_too_old`, `sqlite_missing`, `sqlite_too_old`
 */
export const openMemoryStore = async (): Promise<Outcome<Store>> => {
  const loaded = await loadSqlite()
  if (!loaded.ok) return loaded
  const sqlite = loaded.value
  const raw = new sqlite(':memory:')
  settle(raw)
  const db = kyselyOver(raw)
  const migrated = await migrate(db, sqliteFlavour, where)
  if (!migrated.ok) return migrated
  return accept(
    keepStore({
      db,
      where,
      patience: 0,
      refusalOf: (error) => sqliteRefusal(error, where),
      snapshot: async function* () {
        const still = kyselyOver(new sqlite(raw.serialize()))
        try {
          yield* readRecords(still, where)
        } finally {
          await still.destroy()
        }
      },
      close: () => db.destroy(),
    }),
  )
}
