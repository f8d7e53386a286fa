// Worker: reads one file through the reader, slice after slice, in constant memory.
import { PrintFileReader } from '../../print/index.ts'
import { buffersOf } from './buffers-of.ts'
import type { ReadingAsked, ReadingMessage } from './worker-message.ts'

const say = (message: ReadingMessage, transfer: Transferable[] = []): void => {
  self.postMessage(message, { transfer })
}

/** Progress is said this often, ms: as often as a person sees it move. */
const often = 60

async function read({ file, answers }: ReadingAsked): Promise<void> {
  const reader = new PrintFileReader({ ...answers, silhouette: true })
  const slices = file.stream().getReader()
  let bytes = 0
  let said = performance.now()
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- slices come one after another
    const { done, value } = await slices.read()
    if (done) break
    reader.push(value)
    bytes += value.length
    if (reader.refusal !== null) break
    if (performance.now() - said < often) continue
    said = performance.now()
    say({ kind: 'progress', bytes })
  }
  const outcome = reader.finish()
  say({ kind: 'read', outcome }, buffersOf(outcome))
}

self.addEventListener('message', ({ data }: MessageEvent<ReadingAsked>) => {
  read(data).catch(() => say({ kind: 'lost' }))
})
