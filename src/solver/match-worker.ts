import { parentPort, workerData } from 'node:worker_threads'
import { matchSlate } from '../match/index.ts'
import { DomainError } from '../units/index.ts'
import { highsSolver } from './highs-solver.ts'
import type { ThreadWord, ThreadWork } from './match-in-thread.ts'

// The thread of `matchInThread`: one match, told of on the way.

const { slate, limit_ms, stop } = workerData as ThreadWork
const cell = new Int32Array(stop)
const isCancelled = (): boolean => Atomics.load(cell, 0) !== 0
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
const say = (word: ThreadWord): void => parentPort?.postMessage(word)

try {
  const plan = await matchSlate(slate, {
    solver: highsSolver(isCancelled),
    clock: () => performance.now(),
    limit_ms,
    isCancelled,
    progress: (progress) => say({ said: 'progress', progress }),
  })
  say({ said: 'plan', plan })
} catch (error) {
  const code = error instanceof DomainError ? error.code : null
  say({ said: 'fault', code, message: error instanceof Error ? error.message : String(error) })
}
