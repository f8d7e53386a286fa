import { createHash, type Hash } from 'node:crypto'
import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'

/** SHA-256 of a file while it is read. */
export interface FileHash {
  readonly update: (bytes: Uint8Array) => void
  readonly digest: () => Promise<string>
  /** Gives up. */
  readonly stop: () => Promise<void>
}

/** Hashes what it is given. */
export const hashOfSlices = (): FileHash => {
  const hash: Hash = createHash('sha256')
  return {
    update: (bytes) => void hash.update(bytes),
    digest: () => Promise.resolve(hash.digest('hex')),
    stop: () => Promise.resolve(),
  }
}

/**
 * Hashes an open file in a thread that reads it by itself, so that the reader keeps its own
 * processor. The file must stay open until it is done or stopped.
 */
export const hashOfFile = (fd: number): FileHash => {
  const file = new URL(`./hash-worker${extname(import.meta.filename)}`, import.meta.url)
  const worker = new Worker(file, { workerData: { fd } })
  const digest = new Promise<string>((resolve, reject) => {
    worker.once('message', resolve)
    worker.once('error', reject)
    worker.once('exit', () => reject(new Error('the file was not hashed')))
  })
  // Where nobody asks for it any more, a failure is no news.
  digest.catch(() => undefined)
  return {
    update: () => undefined,
    digest: () => digest,
    stop: async () => {
      await worker.terminate()
    },
  }
}
