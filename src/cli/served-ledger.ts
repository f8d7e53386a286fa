import { createReadStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import type { ServedLedger } from '../http/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { type DemoLedger, openDemoLedger } from './demo-ledger.ts'
import { withUpload } from './with-upload.ts'

/** A ledger that is served, and how to close it. */
export interface OwnLedger extends ServedLedger {
  readonly close: () => Promise<void>
}

/**
 * The ledger of a folder for as long as a server runs, and the demo shelf in its stead where that is
 * asked for: each has a store of its own, so that what is written to one never reaches the other.
 *
 * @param isDemo - begins with the demo shelf; the folder's own ledger is opened once that is removed
 */
export const servedLedger = async (
  folder: string,
  isDemo: boolean,
): Promise<Outcome<OwnLedger>> => {
  const { backUp, openMemoryStore, openStore, restore } = await import('../store/index.ts')
  let own: Store | undefined
  let demo: DemoLedger | undefined
  let number = 1
  const openOwn = async (): Promise<Outcome<Store>> => {
    if (own !== undefined) return accept(own)
    const opened = await openStore(folder)
    if (opened.ok) own = opened.value
    return opened
  }
  const begun = isDemo ? await openDemoLedger() : await openOwn()
  if (!begun.ok) return begun
  if ('end' in begun.value) demo = begun.value
  return accept({
    store: () => {
      const store = demo?.store ?? own
      if (store === undefined) throw new Error('Neither ledger is open.')
      return store
    },
    number: () => number,
    isDemo: () => demo !== undefined,
    setDemo: (wanted, alone) =>
      alone(async () => {
        if (wanted === (demo !== undefined)) return accept(undefined)
        const opened = wanted ? await openDemoLedger() : await openOwn()
        if (!opened.ok) return opened
        const before = demo
        demo = 'end' in opened.value ? opened.value : undefined
        number++
        await before?.end()
        return accept(undefined)
      }),
    rehearsal: openMemoryStore,
    close: async () => {
      await own?.close()
      await demo?.end()
    },
    backUp: async () => {
      const draft = await mkdtemp(join(tmpdir(), 'reelreckon-serve-'))
      const clear = (): void => void rm(draft, { recursive: true, force: true })
      const file = join(draft, 'backup.sqlite')
      const made = await backUp(demo?.folder ?? folder, file)
      if (!made.ok) {
        clear()
        return made
      }
      const bytes = createReadStream(file)
      bytes.once('close', clear)
      return accept(Readable.toWeb(bytes) as unknown as ReadableStream<Uint8Array>)
    },
    examine: (bytes) =>
      withUpload(bytes, async ({ file, folder: draft }) => {
        // Put into a place of its own it is read and checked as if it were meant.
        const put = await restore(file, join(draft, 'examined'))
        if (!put.ok) return ofUpload(put.refusal, file)
        const { facts, rows, prints } = put.value
        return accept({ file: 'upload', facts, rows, prints, kept: null })
      }),
    restore: (bytes, alone) =>
      withUpload(bytes, async ({ file }) => {
        const done = await alone(async () => {
          if (demo !== undefined || own === undefined) return demoInPlace
          await own.close()
          own = undefined
          const put = await restore(file, folder)
          const again = await openOwn()
          if (!again.ok) return again
          number++
          return put
        })
        if (!done.ok) return ofUpload(done.refusal, file)
        const { before, ...size } = done.value
        return accept({ file: 'upload', ...size, kept: before ?? null })
      }),
  })
}

const demoInPlace: Outcome<never> = refuse({
  code: 'demo_in_place',
  message: 'The demo shelf stands in the place of your own ledger. Remove it first.',
})

/** Where what was sent lies is nobody's business: it is called what it is to the person. */
const ofUpload = ({ code, message }: Refusal, file: string): Outcome<never> =>
  refuse({ code, message: message.replaceAll(file, 'The file that was sent') })
