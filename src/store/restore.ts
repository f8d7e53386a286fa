import { link, rename, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { checkLedger, type LedgerSize } from './check-ledger.ts'
import { copyLedger, type LongWork, removeLedger } from './copy-ledger.ts'
import { damaged } from './damaged.ts'
import { ledgerName } from './data-folder.ts'
import { examineLedger, firstBytes } from './examine-ledger.ts'
import { besideLedger } from './files-of-ledger.ts'
import { holdLedger, inUse } from './hold-ledger.ts'
import { loadSqlite, type Sqlite } from './load-sqlite.ts'
import { fileIdentity, noteOpen } from './open-files.ts'
import { readyFolder } from './open-store.ts'
import { draftName, exists, placeNew } from './place-file.ts'
import { connectReadOnly } from './read-only-connection.ts'
import { freeName, setAside } from './set-aside.ts'
import { sqliteRefusal } from './sqlite-refusal.ts'
import { syncFolder } from './sync-folder.ts'

export interface RestoreChoice extends LongWork {
  /** The moment in the name of what stood there before, milliseconds since 1970. */
  readonly now?: () => number
}

export interface Restored extends LedgerSize {
  /** Where the ledger is that stood there before, if there was one. */
  readonly before?: string
}

/**
 * Puts a backup in the place of a folder's ledger. The backup is copied and the copy checked through
 * first; what stood there before is kept beside it under a name with the date, damaged or not.
 *
 * @param backup - a file of `backUp`, or any ledger that nobody has open
 * @param folder - of the ledger; created if need be
 * @returns what the ledger now holds, or of the backup `no_ledger`, `not_a_ledger`, `damaged`,
 *   `newer_ledger`; of the folder `in_use` (another program has its ledger open), `not_a_folder`,
 *   `network_folder`; and `cancelled`, `disk_full`, `disk_failed`, `read_only`, `node_too_old`,
 *   `sqlite_missing`, `sqlite_too_old`. Whatever is refused, the folder's ledger is what it was, but
 *   for `damaged` said of it, which is found after it was put in place.
 */
export const restore = async (
  backup: string,
  folder: string,
  choice: RestoreChoice = {},
): Promise<Outcome<Restored>> => {
  const loaded = await loadSqlite()
  if (!loaded.ok) return loaded
  const source = resolve(backup)
  const file = join(resolve(folder), ledgerName)
  let where = source
  try {
    const examined = await examineLedger(source)
    if (!examined.ok) {
      if (examined.refusal.code === 'not_a_ledger') return await notABackup(source)
      if (examined.refusal.code !== 'no_ledger') return examined
      return refuse({
        ...examined.refusal,
        message: `There is no backup at ${source}. Look at its name and its folder again.`,
      })
    }
    const release = noteOpen(examined.value.identity)
    const draft = draftName(file)
    try {
      where = file
      const ready = await readyFolder(dirname(file), true)
      if (!ready.ok) return ready
      where = source
      const raw = await connectReadOnly(loaded.value, source)
      try {
        where = file
        const copied = await copyLedger(loaded.value, raw, source, draft, choice)
        if (!copied.ok) return copied
        const before = await swapIn(loaded.value, draft, file, choice.now ?? Date.now)
        if (!before.ok) return before
        const placed = await checkPlaced(loaded.value, file, copied.value)
        if (!placed.ok) return placed
        return accept({
          ...copied.value,
          ...(before.value !== undefined && { before: before.value }),
        })
      } finally {
        raw.close()
      }
    } finally {
      release()
      await removeLedger(draft)
    }
  } catch (error) {
    const refusal = sqliteRefusal(error, where)
    if (refusal === undefined) throw error
    return refuse(refusal)
  }
}

/** What is no backup, told by what it may be instead. */
const notABackup = async (file: string): Promise<Outcome<never>> => {
  const isFile = (await stat(file)).isFile()
  const begins = isFile ? (await firstBytes(file)).toString('utf8') : ''
  return refuse({
    code: 'not_a_ledger',
    message: /^\uFEFF?\s*\{"kind": ?"reelreckon-ledger"/.test(begins)
      ? `${file} is an export of a ledger and no backup: take it over with import.`
      : `${file} is no backup of a ledger. Name a file that backup wrote; what export wrote, or a table of reels, is taken over with import.`,
    received: file,
  })
}

/** Gives the copy the ledger's name; what had it before keeps another. */
const swapIn = async (
  sqlite: Sqlite,
  draft: string,
  name: string,
  now: () => number,
): Promise<Outcome<string | undefined>> => {
  if (!(await exists(name))) {
    await setAside(name, now())
    return (await placeNew(draft, name)) ? accept(undefined) : refuse(inUse(name))
  }
  const held = await holdLedger(sqlite, name)
  if (!held.ok) return held
  try {
    const before = await freeName(name, new Date(now()))
    // Before the ledger itself: a log left beside another file would be taken for that one's.
    for (const end of besideLedger) {
      // oxlint-disable-next-line no-await-in-loop -- the log first, as above
      if (await exists(name + end)) await rename(name + end, before + end)
    }
    await keepUnder(name, before)
    await rename(draft, name)
    await syncFolder(dirname(name))
    return accept(before)
  } finally {
    held.value()
  }
}

/** Opens what was put in place as the next program will, and checks that it is the copy still. */
const checkPlaced = async (
  sqlite: Sqlite,
  file: string,
  copied: LedgerSize,
): Promise<Outcome<void>> => {
  const identity = await fileIdentity(file)
  const release = identity === undefined ? undefined : noteOpen(identity)
  try {
    const raw = await connectReadOnly(sqlite, file)
    try {
      const checked = checkLedger(raw, file)
      if (!checked.ok) return checked
      // Others may have begun to write by now; nothing they do makes it less.
      const { facts, rows, prints } = checked.value
      if (facts < copied.facts || rows < copied.rows || prints < copied.prints) {
        return refuse(damaged(file, 'it does not hold what the backup holds'))
      }
      return accept(undefined)
    } finally {
      raw.close()
    }
  } finally {
    release?.()
  }
}

/** A second name, so that the first is never without a ledger; where there are no links, a move. */
const keepUnder = async (name: string, before: string): Promise<void> => {
  try {
    await link(name, before)
  } catch (error) {
    if (await exists(before)) throw error
    await rename(name, before)
  }
}
