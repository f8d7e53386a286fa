import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readLedger } from '../ledger/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome } from '../units/index.ts'

/** The harbour bench in a store of its own. */
export interface DemoLedger {
  readonly store: Store
  /** Temporary. */
  readonly folder: string
  /** Closes it, and leaves nothing of it. */
  readonly end: () => Promise<void>
}

/** The harbour bench, as the build writes it beside the program. */
const lines = (): Promise<string> =>
  readFile(fileURLToPath(new URL('./demo.ndjson', import.meta.url)), 'utf8')

/** @returns as `openStore`, `Store.append` */
export const openDemoLedger = async (): Promise<Outcome<DemoLedger>> => {
  const { openStore } = await import('../store/index.ts')
  const records = readLedger((await lines()).split('\n'))
  if (!records.ok) return records
  const folder = await mkdtemp(join(tmpdir(), 'reelreckon-demo-'))
  const clear = (): Promise<void> => rm(folder, { recursive: true, force: true })
  const opened = await openStore(folder)
  if (!opened.ok) {
    await clear()
    return opened
  }
  const store = opened.value
  const end = async (): Promise<void> => {
    await store.close()
    await clear()
  }
  const filled = await store.append(records.value)
  if (!filled.ok) {
    await end()
    return filled
  }
  return accept({ store, folder, end })
}
