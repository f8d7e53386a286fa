import { availableParallelism } from 'node:os'
import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { MatchSlate, PartSolver, SolvedPart } from '../match/index.ts'
import { sharedClock } from './shared-clock.ts'

/** What a thread for parts is given. */
export interface PartsWork {
  readonly slate: MatchSlate
  /** One cell; anything but 0 when it is to stop. */
  readonly stop: SharedArrayBuffer
}

/** What it is asked, one part after the other. */
export interface PartAsked {
  readonly part: number
  readonly sofar: Parameters<PartSolver>[1]
  /** When it is to have ended, by `sharedClock`; Infinity without a limit. */
  readonly ends_ms: number
}

/** What it answers. */
export type PartAnswered =
  | { readonly said: 'part'; readonly solved: SolvedPart }
  | { readonly said: 'fault'; readonly message: string }

/** More threads than this do not help a bench's slate. */
const mostThreads = 4

/** How many parts are solved at once on this machine. */
export const threadsHere = (): number => Math.min(mostThreads, availableParallelism())

/** Threads that solve parts of one slate, and the way to end them. */
export interface PartThreads {
  readonly solvePart: PartSolver
  readonly end: () => void
}

/** So many threads for the parts of a slate; no more than so many parts are to be asked at once. */
export const partThreads = (
  slate: MatchSlate,
  stop: SharedArrayBuffer,
  count: number,
): PartThreads => {
  const file = new URL(`./part-worker${extname(import.meta.filename)}`, import.meta.url)
  const workerData: PartsWork = { slate, stop }
  const threads = Array.from({ length: count }, () => new Worker(file, { workerData }))
  const free = [...threads]
  const solvePart: PartSolver = (part, sofar, { left_s }) => {
    const thread = free.pop()
    if (!thread) throw new Error('more parts at once than there are threads')
    const asked: PartAsked = { part, sofar, ends_ms: sharedClock() + 1000 * left_s() }
    return new Promise<SolvedPart>((resolve, reject) => {
      const done = (): void => {
        thread.off('message', heard)
        thread.off('error', failed)
      }
      const heard = (word: PartAnswered): void => {
        done()
        free.push(thread)
        if (word.said === 'part') resolve(word.solved)
        else reject(new Error(word.message))
      }
      const failed = (error: unknown): void => {
        done()
        reject(error instanceof Error ? error : new Error(String(error)))
      }
      thread.on('message', heard)
      thread.on('error', failed)
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has no origin
      thread.postMessage(asked)
    })
  }
  return { solvePart, end: () => void threads.map((thread) => thread.terminate()) }
}
