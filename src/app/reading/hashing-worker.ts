// Worker: the SHA-256 of one file, beside the reading of it.
//
// Measured on two cores, time of a processor for 100 MB: the reader with the silhouette 0.2 s; the
// browser's own SHA-256 0.2 s, most of it for the room it needs twice over; in WebAssembly 0.35 s; in
// JavaScript 0.5 s. So the hash has a worker of its own, and the browser's is taken where there is one
// (on secure origins) and the file fits into memory: it takes no slices.
import { createSHA256 } from 'hash-wasm'
import { eachSlice } from './each-slice.ts'
import type { HashingMessage } from './worker-message.ts'

/** Largest file that is held whole, bytes. */
const heldWhole = 256 * 2 ** 20

const hex = (digest: Uint8Array): string =>
  Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')

async function hash(file: File): Promise<string> {
  if (file.size <= heldWhole && globalThis.crypto?.subtle !== undefined) {
    return hex(new Uint8Array(await crypto.subtle.digest('SHA-256', await file.arrayBuffer())))
  }
  const hasher = await createSHA256()
  await eachSlice(file, (slice) => {
    hasher.update(slice)
    return true
  })
  return hasher.digest()
}

const say = (message: HashingMessage): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<File>) => {
  hash(data).then(
    (digest) => say({ kind: 'hashed', sha256: digest }),
    () => say({ kind: 'lost' }),
  )
})
