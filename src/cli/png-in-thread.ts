import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { Drawing } from '../picture/index.ts'

/** A drawing as a PNG file, by a thread of its own: a layer of many ways takes long. */
export const pngInThread = async (drawing: Drawing): Promise<Uint8Array<ArrayBuffer>> => {
  const file = new URL(`./png-worker${extname(import.meta.filename)}`, import.meta.url)
  const worker = new Worker(file, { workerData: { drawing } })
  return new Promise((resolve, reject) => {
    worker.once('message', resolve)
    worker.once('error', reject)
    worker.once('exit', () => reject(new Error('the picture was not drawn')))
  })
}
