// Worker: reads one file through the reader, slice after slice, in constant memory.
import { PrintFileReader } from '../../print/index.ts'
import { buffersOf } from './buffers-of.ts'
import { eachSlice } from './each-slice.ts'
import { warmUp } from './warm-up.ts'
import type { ReadingAsked, ReadingMessage } from './worker-message.ts'

const say = (message: ReadingMessage, transfer: Transferable[] = []): void => {
  self.postMessage(message, { transfer })
}

/** Progress is said this often, ms: to show it takes the page some milliseconds each time. */
const often = 500

async function read({ file, answers }: ReadingAsked): Promise<void> {
  const reader = new PrintFileReader({ motion: {}, ...answers, silhouette: true })
  let bytes = 0
  let said = performance.now()
  const take = (slice: Uint8Array): boolean => {
    reader.push(slice)
    bytes += slice.length
    if (performance.now() - said >= often) {
      said = performance.now()
      say({ kind: 'progress', bytes })
    }
    return reader.refusal === null
  }
  await eachSlice(file, take)
  const outcome = reader.finish()
  say({ kind: 'read', outcome }, buffersOf(outcome))
}

const warming = warmUp()
let nextStep = 0
/** Warms up, step by step, until a file comes. */
const warm = (): void => {
  if (warming.next().done !== true) nextStep = setTimeout(warm)
}
nextStep = setTimeout(warm)

self.addEventListener('message', ({ data }: MessageEvent<ReadingAsked>) => {
  clearTimeout(nextStep)
  read(data).catch(() => say({ kind: 'lost' }))
})
