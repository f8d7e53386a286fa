import { open, rm } from 'node:fs/promises'
import type { Database } from 'better-sqlite3'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { checkLedger, type LedgerSize, sizeOfLedger } from './check-ledger.ts'
import { damaged } from './damaged.ts'
import type { Sqlite } from './load-sqlite.ts'
import { connectSqlite } from './sqlite-connection.ts'
import { syncFile } from './sync-folder.ts'

/** What long work says of itself and how it is told to end. */
export interface LongWork {
  /** Called again and again, `of` 0 until it is known. */
  readonly progress?: (done: CopyProgress) => void
  readonly signal?: AbortSignal
}

export interface CopyProgress {
  readonly phase: 'copying' | 'checking'
  /** Pages. */
  readonly done: number
  readonly of: number
}

/** Pages in a step; between steps others get their turn. */
const stepPages = 1024

/**
 * Copies a ledger as it stands at one moment, while others write, into one file without a log; then
 * checks all of it, compares the counts and has it written to the disk.
 *
 * @param draft - must not exist; gone again unless the copy is good
 * @returns what the copy holds, or `cancelled`, `damaged`, `newer_ledger`
 * @throws errors of SQLite and of the file system
 * @see https://www.sqlite.org/backup.html
 */
export const copyLedger = async (
  sqlite: Sqlite,
  source: Database,
  where: string,
  draft: string,
  { progress, signal }: LongWork,
): Promise<Outcome<LedgerSize>> => {
  let good = false
  // The moment is held by a transaction: without one every write of others would begin the copy anew.
  source.exec('begin')
  try {
    await (await open(draft, 'wx', 0o600)).close()
    const there = sizeOfLedger(source)
    const { totalPages } = await source.backup(draft, {
      progress: ({ totalPages: of, remainingPages }) => {
        signal?.throwIfAborted()
        progress?.({ phase: 'copying', done: of - remainingPages, of })
        return stepPages
      },
    })
    signal?.throwIfAborted()
    progress?.({ phase: 'checking', done: totalPages, of: totalPages })
    const checked = checkCopy(sqlite, draft, where)
    if (!checked.ok) return checked
    if (JSON.stringify(checked.value) !== JSON.stringify(there)) {
      return refuse(damaged(where, 'its copy does not hold what it holds'))
    }
    await syncFile(draft)
    good = true
    return accept(checked.value)
  } catch (error) {
    if (signal?.aborted === true) return refuse(cancelled)
    throw error
  } finally {
    if (source.inTransaction) source.exec('rollback')
    if (!good) await removeLedger(draft)
  }
}

const checkCopy = (sqlite: Sqlite, draft: string, where: string): Outcome<LedgerSize> => {
  const copy = connectSqlite(sqlite, draft)
  try {
    // One file, readable where nothing can be written; WAL comes back when it is opened as a ledger.
    copy.pragma('journal_mode = delete')
    return checkLedger(copy, where)
  } finally {
    copy.close()
  }
}

/** A file of SQLite and what may stand beside it. */
export const removeLedger = async (file: string): Promise<void> => {
  await Promise.all(['', '-wal', '-shm', '-journal'].map((end) => rm(file + end, { force: true })))
}

const cancelled = {
  code: 'cancelled',
  message: 'Stopped as asked. Nothing was changed.',
}
