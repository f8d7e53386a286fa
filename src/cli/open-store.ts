import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { homedir } from 'node:os'
import { join } from 'node:path'
import type { LedgerRecord } from '../contract/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { standInStore } from './stand-in-store.ts'

/** The store in a folder; in the platform's data folder unless given. Loads the database only now. */
export const openStoreIn = async (folder: string | undefined): Promise<Outcome<Store>> => {
  const at =
    folder === undefined || folder === '' ? join(homedir(), '.local/share/reelreckon') : folder
  await mkdir(at, { recursive: true })
  const file = join(at, 'ledger.ndjson')
  const text = await readFile(file, 'utf8').catch(() => '')
  const records = text
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as LedgerRecord)
  return accept(
    standInStore(records, (all) =>
      writeFile(file, all.map((one) => `${JSON.stringify(one)}\n`).join('')),
    ),
  )
}
