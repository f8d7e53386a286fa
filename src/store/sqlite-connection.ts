import type { Database } from 'better-sqlite3'
import { Kysely, type SqliteDatabase, SqliteDialect } from 'kysely'
import type { Sqlite } from './load-sqlite.ts'
import type { Tables } from './tables.ts'

/** Marks a file as a ledger: the letters of `Reel`, in bytes 68 to 71 of its header. */
export const applicationId = 0x5265656c

/** How a connection is to be opened. */
export interface ConnectionChoice {
  readonly readOnly?: boolean
  /** Room in pages; a test's way to a full disk. */
  readonly maxPages?: number
}

/**
 * A connection with every setting that safety needs. WAL is set by the one who made the file and
 * stays in its header.
 */
export const connectSqlite = (
  sqlite: Sqlite,
  file: string,
  { readOnly = false, maxPages }: ConnectionChoice = {},
): Database => {
  // The store waits for others itself, without holding up the process: see `keepStore`.
  const raw = new sqlite(file, { readonly: readOnly, fileMustExist: true, timeout: 5 })
  try {
    settle(raw)
    if (maxPages !== undefined) raw.pragma(`max_page_count = ${maxPages}`)
    return raw
  } catch (error) {
    raw.close()
    throw error
  }
}

/** Settings that a connection forgets when it closes. */
export const settle = (raw: Database): void => {
  raw.pragma('trusted_schema = off')
  // better-sqlite3 is built to use NORMAL under WAL, where a power cut takes the last commits along.
  raw.pragma('synchronous = full')
  raw.pragma('foreign_keys = on')
  raw.pragma('recursive_triggers = on')
  // On macOS fsync alone leaves data in the drive's cache; elsewhere these do nothing.
  raw.pragma('fullfsync = on')
  raw.pragma('checkpoint_fullfsync = on')
}

/** Kysely over a connection; `destroy` closes it. */
export const kyselyOver = (raw: Database): Kysely<Tables> =>
  new Kysely<Tables>({ dialect: new SqliteDialect({ database: forgivingRollback(raw) }) })

/**
 * SQLite itself takes a transaction back when the disk is full; Kysely's rollback after that would
 * fail and hide why.
 */
const forgivingRollback = (raw: Database): SqliteDatabase => ({
  close: () => {
    raw.close()
  },
  prepare: (text) => raw.prepare(text === 'rollback' && !raw.inTransaction ? 'select 1' : text),
})
