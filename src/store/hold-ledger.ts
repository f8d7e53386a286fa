import type { Database } from 'better-sqlite3'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { examineLedger } from './examine-ledger.ts'
import type { Sqlite } from './load-sqlite.ts'
import { noteOpen } from './open-files.ts'
import { connectSqlite } from './sqlite-connection.ts'
import { sqliteRefusal } from './sqlite-refusal.ts'

/**
 * Takes a ledger for oneself, its log folded in, until the function returned is called. What is no
 * ledger, or too damaged to be locked, nobody can have open in order, and it is let pass.
 *
 * @returns `in_use` where anybody has it open, this process too
 */
export const holdLedger = async (sqlite: Sqlite, file: string): Promise<Outcome<() => void>> => {
  const examined = await examineLedger(file)
  if (!examined.ok) return accept(() => {})
  const release = noteOpen(examined.value.identity)
  let raw: Database | undefined
  const letGo = (): void => {
    raw?.close()
    release()
  }
  try {
    raw = connectSqlite(sqlite, file)
    // Leaving WAL takes everybody else to be gone, and leaves no log behind.
    raw.pragma('journal_mode = delete')
    raw.exec('begin exclusive')
    return accept(letGo)
  } catch (error) {
    letGo()
    const refusal = sqliteRefusal(error, file)
    if (refusal?.code === 'busy') return refuse(inUse(file))
    if (refusal?.code === 'damaged') return accept(() => {})
    throw error
  }
}

export const inUse = (file: string): Refusal => ({
  code: 'in_use',
  message: `${file} is open in another program. End that program, such as a running server, and restore again; nothing was changed.`,
  received: file,
})
