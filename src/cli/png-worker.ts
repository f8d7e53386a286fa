import { parentPort, workerData } from 'node:worker_threads'
import { type Drawing, pixelsOf } from '../picture/index.ts'
import { pngOf } from './png-of.ts'

const { drawing } = workerData as { readonly drawing: Drawing }
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
parentPort?.postMessage(pngOf(pixelsOf(drawing)))
