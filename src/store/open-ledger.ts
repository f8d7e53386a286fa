import type { Database } from 'better-sqlite3'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { damaged } from './damaged.ts'
import { examineLedger, notALedger } from './examine-ledger.ts'
import { sqliteFlavour } from './flavour.ts'
import type { Kept } from './keep-store.ts'
import type { Sqlite } from './load-sqlite.ts'
import { mayWrite } from './may-write.ts'
import { migrate, migrationsLeft, newerLedger } from './migrate.ts'
import { fileIdentity, noteOpen } from './open-files.ts'
import { patiently } from './patiently.ts'
import { connectReadOnly } from './read-only-connection.ts'
import { readRecords } from './read-records.ts'
import { applicationId, connectSqlite, kyselyOver } from './sqlite-connection.ts'
import { readOnly, sqliteRefusal } from './sqlite-refusal.ts'

export const defaultPatience = 5000

/** Up to this many bytes a ledger is checked through whenever it is opened; it takes milliseconds. */
const quicklyChecked = 4 * 1024 * 1024

export interface LedgerChoice {
  readonly patience: number
  readonly maxPages?: number
}

/**
 * Opens a ledger that is there.
 *
 * @returns refusals as of `openStore`
 * @throws errors of SQLite and of the file system, which `sqliteRefusal` puts into words
 */
export const openLedger = async (
  sqlite: Sqlite,
  file: string,
  choice: LedgerChoice,
): Promise<Outcome<Kept>> => {
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- each time another file has taken the name
    const opened = await openOnce(sqlite, file, choice)
    if (!opened.ok || opened.value !== 'replaced') return opened as Outcome<Kept>
  }
}

const openOnce = async (
  sqlite: Sqlite,
  file: string,
  choice: LedgerChoice,
): Promise<Outcome<Kept | 'replaced'>> => {
  const examined = await examineLedger(file)
  if (!examined.ok) return examined
  const { identity, bytes } = examined.value
  const writable = await mayWrite(file)
  const release = noteOpen(identity)
  let raw: Database | undefined
  const leave = <T>(outcome: T): T => {
    raw?.close()
    release()
    return outcome
  }
  try {
    const isBusy = (error: unknown): boolean => sqliteRefusal(error, file)?.code === 'busy'
    raw = await patiently(
      async () => {
        if (!writable) return connectReadOnly(sqlite, file)
        const tried = connectSqlite(sqlite, file, choice)
        try {
          // Stays as it is where it is so already, and then locks nothing.
          tried.pragma('journal_mode = wal')
          return tried
        } catch (error) {
          tried.close()
          throw error
        }
      },
      isBusy,
      choice.patience,
    )
    const flaw = flawOf(raw, file, bytes)
    if (flaw !== undefined) return leave(refuse(flaw))
    // A restore may have put another ledger here while this one was being opened.
    if ((await fileIdentity(file)) !== identity) return leave(accept('replaced' as const))
    const tables = await readyTables(raw, file, writable)
    if (!tables.ok) return leave(tables)
    return accept(keptIn(sqlite, raw, file, { ...choice, writable }, release))
  } catch (error) {
    leave(undefined)
    throw error
  }
}

/** What is wrong with a ledger that SQLite did open. */
const flawOf = (raw: Database, file: string, bytes: number): Refusal | undefined => {
  if (raw.pragma('application_id', { simple: true }) !== applicationId) {
    const outcome = notALedger(file, 'another program wrote it')
    return outcome.ok ? undefined : outcome.refusal
  }
  if (bytes > quicklyChecked) return undefined
  const found = raw.pragma('quick_check(1)', { simple: true })
  return found === 'ok' ? undefined : damaged(file, String(found))
}

const readyTables = async (
  raw: Database,
  file: string,
  writable: boolean,
): Promise<Outcome<void>> => {
  const run = raw.prepare('select name from migration').pluck().all() as string[]
  const { pending, unknown } = migrationsLeft(run)
  if (unknown.length > 0) return newerLedger(file, unknown)
  if (pending.length === 0) return accept(undefined)
  return writable ? migrate(kyselyOver(raw), sqliteFlavour, file) : refuse(readOnly(file))
}

const keptIn = (
  sqlite: Sqlite,
  raw: Database,
  file: string,
  { patience, writable }: LedgerChoice & { readonly writable: boolean },
  release: () => void,
): Kept => {
  const db = kyselyOver(raw)
  return {
    db,
    where: file,
    patience,
    ...(!writable && { readOnly: readOnly(file) }),
    refusalOf: (error) => sqliteRefusal(error, file),
    snapshot: async function* () {
      // On a connection of its own, whose transaction holds the moment while others write.
      const view = raw.memory
        ? new sqlite(raw.serialize())
        : connectSqlite(sqlite, file, { readOnly: true })
      const still = kyselyOver(view)
      try {
        view.exec('begin')
        yield* readRecords(still, file)
      } finally {
        await still.destroy()
        if (view.open) view.close()
      }
    },
    close: async () => {
      await db.destroy()
      // Kysely closes only what it has used.
      if (raw.open) raw.close()
      release()
    },
  }
}
