import type { Database, Statement } from 'better-sqlite3'
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
  new Kysely<Tables>({
    dialect: new SqliteDialect({
      database: {
        close: () => {
          raw.close()
        },
        prepare: preparing(raw),
      },
    }),
  })

/** Statements kept of a connection: more than the store has. */
const mostKept = 50

/**
 * Statements of a connection. What only reads is prepared once: a server asks for the revision at every
 * question. It is never under way twice, as all its rows are taken at once.
 *
 * SQLite itself takes a transaction back when the disk is full; Kysely's rollback after that would
 * fail and hide why.
 */
const preparing = (raw: Database): SqliteDatabase['prepare'] => {
  const kept = new Map<string, Statement>()
  return (text) => {
    if (text === 'rollback' && !raw.inTransaction) return raw.prepare('select 1')
    if (!text.startsWith('select')) return raw.prepare(text)
    const known = kept.get(text)
    if (known !== undefined) return known
    if (kept.size >= mostKept) kept.clear()
    const made = raw.prepare(text)
    kept.set(text, made)
    return made
  }
}
