import type { Database } from 'better-sqlite3'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { damaged } from './damaged.ts'
import { migrationsLeft, newerLedger } from './migrate.ts'
import { unpackBody } from './record-body.ts'

/** How much a ledger holds. */
export interface LedgerSize {
  readonly facts: number
  readonly rows: number
  readonly prints: number
}

/**
 * Checks all of a ledger: every page, every index, every reference, every record. It takes longer the larger the
 * ledger, and can not be interrupted.
 *
 * @returns what it holds, or `damaged`, `newer_ledger`
 * @throws errors of SQLite
 */
export const checkLedger = (raw: Database, file: string): Outcome<LedgerSize> => {
  const run = raw.prepare('select name from migration').pluck().all() as string[]
  const { unknown } = migrationsLeft(run)
  if (unknown.length > 0) return newerLedger(file, unknown)
  const found = raw.pragma('integrity_check(1)', { simple: true })
  if (found !== 'ok') return refuse(damaged(file, String(found)))
  const astray = raw.pragma('foreign_key_check') as readonly { readonly table: string }[]
  if (astray[0] !== undefined) {
    return refuse(damaged(file, `a ${astray[0].table} refers to something that is not there`))
  }
  const record = unreadableRecord(raw)
  if (record !== undefined) return refuse(damaged(file, `${record} in it is no longer readable`))
  return accept(sizeOfLedger(raw))
}

/** A page that was overwritten within one long value is whole to SQLite: only who reads the value sees it. */
const unreadableRecord = (raw: Database): string | undefined => {
  const bodies = (table: string): IterableIterator<unknown> =>
    raw.prepare(`select body from ${table}`).pluck().iterate()
  for (const table of ['catalogue_row', 'fact']) {
    for (const body of bodies(table)) if (!isJson(String(body))) return 'a record'
  }
  for (const packed of bodies('print')) if (!isPrint(packed as Uint8Array)) return 'a print'
  return undefined
}

const isJson = (body: string): boolean => {
  try {
    JSON.parse(body)
    return true
  } catch {
    return false
  }
}

const isPrint = (packed: Uint8Array): boolean => {
  try {
    return isJson(unpackBody(packed))
  } catch {
    return false
  }
}

export const sizeOfLedger = (raw: Database): LedgerSize => {
  const count = (table: string): number =>
    raw.prepare(`select count(*) from ${table}`).pluck().get() as number
  return { facts: count('fact'), rows: count('catalogue_row'), prints: count('print') }
}
