// Worker: the SHA-256 of one file, beside the reading of it.
//
// Measured on a file of 100 MB (two cores): the reader with the silhouette 130 MB/s, SHA-256 in
// JavaScript 60 to 80 MB/s. In one pass the hash would thus more than halve the reading. So it has a
// worker of its own, and the browser's own SHA-256, which is several times as fast, where there is
// one (on secure origins) and the file fits into memory: it takes no slices.
import { sha256 } from '@noble/hashes/sha2.js'
import type { HashingMessage } from './worker-message.ts'

/** Largest file that is held whole, bytes. */
const heldWhole = 256 * 2 ** 20

const hex = (digest: Uint8Array): string =>
  Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')

async function hash(file: File): Promise<string> {
  if (file.size <= heldWhole && globalThis.crypto?.subtle !== undefined) {
    return hex(new Uint8Array(await crypto.subtle.digest('SHA-256', await file.arrayBuffer())))
  }
  const hasher = sha256.create()
  const slices = file.stream().getReader()
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- slices come one after another
    const { done, value } = await slices.read()
    if (done) return hex(hasher.digest())
    hasher.update(value)
  }
}

const say = (message: HashingMessage): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<File>) => {
  hash(data).then(
    (digest) => say({ kind: 'hashed', sha256: digest }),
    () => say({ kind: 'lost' }),
  )
})
