// Thread of fuzz-command.ts: an engine that has no WebAssembly.
import { parentPort } from 'node:worker_threads'
import type { ReadOptions } from '../../src/print/index.ts'

Reflect.deleteProperty(globalThis, 'WebAssembly')
const { digest, readFast } = await import('./fast-reading.ts')
parentPort?.on('message', ({ bytes, options }: { bytes: Uint8Array; options: ReadOptions }) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
  parentPort?.postMessage(digest(readFast(bytes, options)))
})
