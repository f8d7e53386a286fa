import { open } from 'node:fs/promises'
import { accept, type Outcome } from '../units/index.ts'
import { removeLedger } from './copy-ledger.ts'
import { sqliteFlavour } from './flavour.ts'
import type { Sqlite } from './load-sqlite.ts'
import { migrate } from './migrate.ts'
import { draftName, placeNew } from './place-file.ts'
import { applicationId, connectSqlite, kyselyOver } from './sqlite-connection.ts'
import { syncFile } from './sync-folder.ts'

/**
 * A new ledger, made under a name of its own and then put into place in one step: nobody ever sees
 * half a ledger, and of two who create the same one both end with the first one's.
 */
export const createLedger = async (sqlite: Sqlite, file: string): Promise<Outcome<void>> => {
  const draft = draftName(file)
  try {
    // SQLite's log takes over the permissions of the file.
    await (await open(draft, 'wx', 0o600)).close()
    const raw = connectSqlite(sqlite, draft)
    const db = kyselyOver(raw)
    try {
      raw.pragma(`application_id = ${applicationId}`)
      raw.pragma('journal_mode = wal')
      const migrated = await migrate(db, sqliteFlavour, file)
      if (!migrated.ok) return migrated
    } finally {
      await db.destroy()
    }
    await syncFile(draft)
    // Somebody else may have been quicker; then theirs is the ledger.
    await placeNew(draft, file)
    return accept(undefined)
  } finally {
    await removeLedger(draft)
  }
}
