import { parentPort, workerData } from 'node:worker_threads'
import { partSolver } from '../match/index.ts'
import { highsSolver } from './highs-solver.ts'
import type { PartAnswered, PartAsked, PartsWork } from './part-threads.ts'
import { sharedClock } from './shared-clock.ts'

// A thread of `partThreads`: parts of one slate, one after the other.

const { slate, stop } = workerData as PartsWork
const cell = new Int32Array(stop)
const isCancelled = (): boolean => Atomics.load(cell, 0) !== 0
const solve = partSolver(slate, highsSolver(isCancelled))
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
const say = (word: PartAnswered): void => parentPort?.postMessage(word)

const answer = async ({ part, sofar, ends_ms }: PartAsked): Promise<void> => {
  try {
    const limits = { left_s: () => (ends_ms - sharedClock()) / 1000, isCancelled }
    say({ said: 'part', solved: await solve(part, sofar, limits) })
  } catch (error) {
    say({ said: 'fault', message: error instanceof Error ? error.message : String(error) })
  }
}
parentPort?.on('message', (asked: PartAsked) => void answer(asked))
