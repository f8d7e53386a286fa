import { parentPort, workerData } from 'node:worker_threads'
import type { ReadOptions } from '../print/index.ts'
import { Fault } from './fault.ts'
import { readInput } from './read-input.ts'
import type { ReadAnswer, ReadOrder } from './reading-pool.ts'

const { options, apart, progress } = workerData as {
  readonly options: ReadOptions
  readonly apart: boolean
  /** Bytes read of the file at hand. */
  readonly progress: Float64Array
}

const answerTo = async ({ file }: ReadOrder): Promise<ReadAnswer> => {
  try {
    const at = (bytes: number): void => void (progress[0] = bytes)
    return { input: await readInput(file, options, { at, apart }) }
  } catch (error) {
    if (error instanceof Fault) return { exit: error.exit, error: error.error }
    throw error
  }
}

parentPort?.on('message', (order: ReadOrder) => {
  void answerTo(order).then((answer) => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
    parentPort?.postMessage(answer)
    return undefined
  })
})
