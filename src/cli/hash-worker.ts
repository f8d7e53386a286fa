import { createHash } from 'node:crypto'
import { readSync } from 'node:fs'
import { parentPort, workerData } from 'node:worker_threads'

const { fd } = workerData as { readonly fd: number }
const buffer = new Uint8Array(2 ** 20)
const hash = createHash('sha256')
for (let at = 0; ; ) {
  const length = readSync(fd, buffer, 0, buffer.length, at)
  if (length === 0) break
  hash.update(buffer.subarray(0, length))
  at += length
}
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
parentPort?.postMessage(hash.digest('hex'))
