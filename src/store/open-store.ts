import { mkdir, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { codeOf } from './code-of.ts'
import { createLedger } from './create-ledger.ts'
import { ledgerName } from './data-folder.ts'
import { noLedger } from './examine-ledger.ts'
import { keepStore } from './keep-store.ts'
import { loadSqlite } from './load-sqlite.ts'
import { networkFileSystemOf } from './network-file-system.ts'
import { defaultPatience, openLedger } from './open-ledger.ts'
import { exists } from './place-file.ts'
import { readOnly, sqliteRefusal } from './sqlite-refusal.ts'
import type { Store } from './store.ts'
import { syncFolder } from './sync-folder.ts'

export interface OpenChoice {
  /** Begin a ledger where there is none; true unless given. */
  readonly create?: boolean
  /** How long to wait for others who write, ms; 5000 unless given. */
  readonly patience?: number
  /** What a test puts in the place of the machine. */
  readonly pretend?: {
    /** Version of Node. */
    readonly node?: string
    readonly networkFileSystem?: string
    /** Room for the file, in pages. */
    readonly maxPages?: number
  }
}

/**
 * Opens the ledger in a folder, `ledger.sqlite`, or begins one. A folder and file it makes are this
 * person's alone (modes 0700 and 0600). Where folder or file are write-protected the ledger can still
 * be read.
 *
 * @param folder - created if need be, with those above it
 * @returns a store whose `append` returns only when what it wrote is safely on the disk, or
 *   `no_ledger`, `not_a_ledger` (a folder, an empty file, another program's), `not_a_folder`,
 *   `damaged`, `newer_ledger`, `network_folder`, `read_only` (and older than this version, or not
 *   closed in order), `disk_full`, `disk_failed`, `busy`, `node_too_old`, `sqlite_missing`,
 *   `sqlite_too_old`
 */
export const openStore = async (
  folder: string,
  choice: OpenChoice = {},
): Promise<Outcome<Store>> => {
  const { create = true, patience = defaultPatience, pretend = {} } = choice
  const loaded = await loadSqlite(pretend.node)
  if (!loaded.ok) return loaded
  const whole = resolve(folder)
  const file = join(whole, ledgerName)
  try {
    const ready = await readyFolder(whole, create, pretend.networkFileSystem)
    if (!ready.ok) return ready
    if (!(await exists(file))) {
      if (!create) return refuse(noLedger(file))
      const created = await createLedger(loaded.value, file)
      if (!created.ok) return created
    }
    const opened = await openLedger(loaded.value, file, {
      patience,
      ...(pretend.maxPages !== undefined && { maxPages: pretend.maxPages }),
    })
    return opened.ok ? accept(keepStore(opened.value)) : opened
  } catch (error) {
    const refusal = sqliteRefusal(error, file)
    if (refusal === undefined) throw error
    return refuse(refusal)
  }
}

/** Sees to it that the folder is there and on a disk of this machine. */
export const readyFolder = async (
  folder: string,
  create: boolean,
  pretended?: string,
): Promise<Outcome<void>> => {
  if (!(await exists(folder))) {
    if (!create) return refuse(noLedger(join(folder, ledgerName)))
    try {
      await mkdir(folder, { recursive: true, mode: 0o700 })
    } catch (error) {
      const code = codeOf(error)
      // A file in the place of a folder above; said as if it were in the place of this one.
      if (code === 'ENOTDIR' || code === 'EEXIST') return notAFolder(folder)
      // What Node makes of EROFS when it makes folders one after another.
      if (code === 'ENOENT') return refuse(readOnly(folder))
      throw error
    }
    await syncFolder(dirname(folder))
  }
  if (!(await stat(folder)).isDirectory()) return notAFolder(folder)
  const network = pretended ?? (await networkFileSystemOf(folder))
  if (network === undefined) return accept(undefined)
  return refuse({
    code: 'network_folder',
    message: `${folder} is on a network file system (${network}), where two computers writing at once can spoil a ledger. Name a folder on a disk of this computer; a backup may go to the network.`,
    received: network,
  })
}

const notAFolder = (folder: string): Outcome<never> =>
  refuse({
    code: 'not_a_folder',
    message: `${folder} is no folder, or a part of it is a file. Name the folder the ledger is in, not the file.`,
    received: folder,
  })
