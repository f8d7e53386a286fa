import { parentPort, workerData } from 'node:worker_threads'
import { countParts, matchSlate } from '../match/index.ts'
import { DomainError } from '../units/index.ts'
import { highsSolver } from './highs-solver.ts'
import type { ThreadWord, ThreadWork } from './match-in-thread.ts'
import { partThreads, threadsHere } from './part-threads.ts'
import { sharedClock } from './shared-clock.ts'

// The thread of `matchInThread`: one match, told of on the way. Where the slate has parts that are worth
// it they are solved in threads of their own.

const { slate, ends_ms, stop } = workerData as ThreadWork
const cell = new Int32Array(stop)
const isCancelled = (): boolean => Atomics.load(cell, 0) !== 0
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
const say = (word: ThreadWord): void => parentPort?.postMessage(word)

/** A thread takes longer to begin than a part of fewer copies takes to be solved. */
const fewestCopies = 6

try {
  const atOnce = Math.min(threadsHere(), countParts(slate, fewestCopies))
  const threads = atOnce > 1 ? partThreads(slate, stop, atOnce) : null
  const plan = await matchSlate(slate, {
    ...(threads ? { solvePart: threads.solvePart, atOnce } : { solver: highsSolver(isCancelled) }),
    clock: () => performance.now(),
    limit_ms: Math.max(0, ends_ms - sharedClock()),
    isCancelled,
    progress: (progress) => say({ said: 'progress', progress }),
  }).finally(() => threads?.end())
  say({ said: 'plan', plan })
} catch (error) {
  const code = error instanceof DomainError ? error.code : null
  say({ said: 'fault', code, message: error instanceof Error ? error.message : String(error) })
}
