import { readFile, stat } from 'node:fs/promises'
import type { Database } from 'better-sqlite3'
import { codeOf } from './code-of.ts'
import type { Sqlite } from './load-sqlite.ts'
import { connectSqlite, settle } from './sqlite-connection.ts'

/**
 * A connection to a ledger that can not be written. SQLite reads a file in WAL mode only where it may
 * write an index beside it, or where one is there; a ledger closed in order is complete without, and
 * is read into memory instead.
 */
export const connectReadOnly = async (sqlite: Sqlite, file: string): Promise<Database> => {
  let raw: Database | undefined
  try {
    raw = connectSqlite(sqlite, file, { readOnly: true })
    // The first read is what opens the log.
    raw.pragma('schema_version')
    return raw
  } catch (error) {
    raw?.close()
    if (!/^SQLITE_(CANTOPEN|READONLY)/.test(codeOf(error) ?? '') || (await hasLog(file))) {
      throw error
    }
    return connectCopy(sqlite, file)
  }
}

const connectCopy = async (sqlite: Sqlite, file: string): Promise<Database> => {
  const bytes = await readFile(file)
  // Write and read version in the header: 2 is WAL, of which there is none in memory.
  bytes[18] = 1
  bytes[19] = 1
  const raw = new sqlite(bytes, { readonly: true })
  settle(raw)
  return raw
}

const hasLog = async (file: string): Promise<boolean> => {
  try {
    return (await stat(`${file}-wal`)).size > 0
  } catch {
    return false
  }
}
