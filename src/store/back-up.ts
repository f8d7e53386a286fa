import { rename } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import type { LedgerSize } from './check-ledger.ts'
import { copyLedger, type LongWork, removeLedger } from './copy-ledger.ts'
import { ledgerName } from './data-folder.ts'
import { examineLedger } from './examine-ledger.ts'
import { loadSqlite } from './load-sqlite.ts'
import { mayWrite } from './may-write.ts'
import { noteOpen } from './open-files.ts'
import { draftName, exists, placeNew } from './place-file.ts'
import { connectReadOnly } from './read-only-connection.ts'
import { connectSqlite } from './sqlite-connection.ts'
import { sqliteRefusal } from './sqlite-refusal.ts'
import { syncFolder } from './sync-folder.ts'

export interface BackUpChoice extends LongWork {
  /** Take the place of a file that is there; it stays until the backup is complete and checked. */
  readonly overwrite?: boolean
}

/**
 * Backs up the ledger of a folder into one file, as it stands when the copy begins; others may write
 * meanwhile. The backup is checked through before it gets its name, so that a file of that name is
 * always a good one. It may be on a network or a stick.
 *
 * @param folder - of the ledger
 * @param target - the file to make; its folder has to be there
 * @returns what the backup holds, or `no_ledger`, `not_a_ledger`, `damaged`, `newer_ledger`,
 *   `target_exists`, `no_target_folder`, `cancelled`, `disk_full`, `disk_failed`, `read_only`, `busy`,
 *   `node_too_old`, `sqlite_missing`, `sqlite_too_old`
 */
export const backUp = async (
  folder: string,
  target: string,
  choice: BackUpChoice = {},
): Promise<Outcome<LedgerSize>> => {
  const loaded = await loadSqlite()
  if (!loaded.ok) return loaded
  const source = join(resolve(folder), ledgerName)
  const made = resolve(target)
  // Until the copy begins what goes wrong is of the ledger, and after that of the target.
  let where = source
  try {
    const examined = await examineLedger(source)
    if (!examined.ok) return examined
    if (!(await exists(dirname(made)))) return refuse(noTargetFolder(made))
    if (choice.overwrite !== true && (await exists(made))) return refuse(targetExists(made))
    const release = noteOpen(examined.value.identity)
    const raw = (await mayWrite(source))
      ? connectSqlite(loaded.value, source)
      : await connectReadOnly(loaded.value, source)
    const draft = draftName(made)
    try {
      where = made
      const copied = await copyLedger(loaded.value, raw, source, draft, choice)
      if (!copied.ok) return copied
      if (choice.overwrite === true) {
        await rename(draft, made)
        await syncFolder(dirname(made))
      } else if (!(await placeNew(draft, made))) {
        return refuse(targetExists(made))
      }
      return accept(copied.value)
    } finally {
      raw.close()
      release()
      await removeLedger(draft)
    }
  } catch (error) {
    const refusal = sqliteRefusal(error, where)
    if (refusal === undefined) throw error
    return refuse(refusal)
  }
}

const targetExists = (target: string): Refusal => ({
  code: 'target_exists',
  message: `${target} is there already and was left as it is. Name another file, or ask for it to be overwritten.`,
  received: target,
})

const noTargetFolder = (target: string): Refusal => ({
  code: 'no_target_folder',
  message: `${target} can not be made: its folder is not there. Make the folder, or name another.`,
  received: target,
})
