import { createReadStream, createWriteStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeStream } from 'node:stream/web'
import type { KeptJson } from '../contract/index.ts'
import type { ServedLedger } from '../http/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome } from '../units/index.ts'

/** A ledger that is served, and how to close it. */
export interface OwnLedger extends ServedLedger {
  readonly close: () => Promise<void>
}

const drafts = (): Promise<string> => mkdtemp(join(tmpdir(), 'reelreckon-serve-'))

/** The ledger of a folder for as long as a server runs. */
export const servedLedger = async (folder: string): Promise<Outcome<OwnLedger>> => {
  const { backUp, openMemoryStore, openStore, restore } = await import('../store/index.ts')
  const opened = await openStore(folder)
  if (!opened.ok) return opened
  let store: Store = opened.value
  let number = 1
  return accept({
    store: () => store,
    number: () => number,
    rehearsal: openMemoryStore,
    close: () => store.close(),
    backUp: async () => {
      const draft = await drafts()
      const clear = (): void => void rm(draft, { recursive: true, force: true })
      const file = join(draft, 'backup.sqlite')
      const made = await backUp(folder, file)
      if (!made.ok) {
        clear()
        return made
      }
      const bytes = createReadStream(file)
      bytes.once('close', clear)
      return accept(Readable.toWeb(bytes) as unknown as ReadableStream<Uint8Array>)
    },
    examine: (bytes) =>
      uploaded(bytes, async (file, draft) => {
        // Put into a place of its own it is read and checked as if it were meant.
        const put = await restore(file, join(draft, 'examined'))
        if (!put.ok) return put
        const { facts, rows, prints } = put.value
        return accept({ file: 'upload', facts, rows, prints, kept: null })
      }),
    restore: (bytes, alone) =>
      uploaded(bytes, async (file) => {
        const done = await alone(async () => {
          await store.close()
          const put = await restore(file, folder)
          const again = await openStore(folder)
          if (!again.ok) return again
          store = again.value
          number++
          return put
        })
        if (!done.ok) return done
        const { before, ...size } = done.value
        return accept({ file: 'upload', ...size, kept: before ?? null })
      }),
  })
}

/** Works with what was sent as a file in a folder of its own, and clears both away. */
const uploaded = async (
  bytes: ReadableStream<Uint8Array>,
  work: (file: string, draft: string) => Promise<Outcome<KeptJson>>,
): Promise<Outcome<KeptJson>> => {
  const draft = await drafts()
  try {
    const file = join(draft, 'upload.sqlite')
    await pipeline(
      Readable.fromWeb(bytes as unknown as NodeStream),
      createWriteStream(file, { mode: 0o600 }),
    )
    return await work(file, draft)
  } finally {
    await rm(draft, { recursive: true, force: true })
  }
}
