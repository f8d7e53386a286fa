import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { MatchPlan, MatchProgress, MatchSlate } from '../match/index.ts'
import { sharedClock } from './shared-clock.ts'

/** What a match in a thread of its own may take, and whom it tells. */
export interface ThreadOptions {
  /** ms from the call on, the threads' beginning counted; 10 000 unless given. */
  readonly limit_ms?: number
  /** When it is aborted the best plan so far is returned, marked so. */
  readonly signal?: AbortSignal
  readonly progress?: (progress: MatchProgress) => void
}

/** What the thread is given. */
export interface ThreadWork {
  readonly slate: MatchSlate
  /** When it is to have ended, by `sharedClock`. */
  readonly ends_ms: number
  /** One cell; anything but 0 when it is to stop. */
  readonly stop: SharedArrayBuffer
}

/** What the thread says. */
export type ThreadWord =
  | { readonly said: 'progress'; readonly progress: MatchProgress }
  | { readonly said: 'plan'; readonly plan: MatchPlan }
  | { readonly said: 'fault'; readonly code: string | null; readonly message: string }

/** What went wrong in the thread, with the code of a `DomainError` where it was one. */
export class MatchFault extends Error {
  readonly code: string | null
  constructor(code: string | null, message: string) {
    super(message)
    this.name = 'MatchFault'
    this.code = code
  }
}

/**
 * `matchSlate` with HiGHS in a thread of its own, so that a server answers meanwhile.
 *
 * @throws MatchFault where `matchSlate` would throw
 */
export const matchInThread = (
  slate: MatchSlate,
  options: ThreadOptions = {},
): Promise<MatchPlan> => {
  const { limit_ms = 10_000, signal, progress } = options
  const stop = new SharedArrayBuffer(4)
  const halt = (): void => void Atomics.store(new Int32Array(stop), 0, 1)
  if (signal?.aborted === true) halt()
  const file = new URL(`./match-worker${extname(import.meta.filename)}`, import.meta.url)
  const workerData: ThreadWork = { slate, ends_ms: sharedClock() + limit_ms, stop }
  const worker = new Worker(file, { workerData })
  signal?.addEventListener('abort', halt, { once: true })
  const plan = new Promise<MatchPlan>((resolve, reject) => {
    worker.on('message', (word: ThreadWord) => {
      if (word.said === 'progress') progress?.(word.progress)
      else if (word.said === 'plan') resolve(word.plan)
      else reject(new MatchFault(word.code, word.message))
    })
    worker.once('error', reject)
    worker.once('exit', () => reject(new MatchFault(null, 'the thread of the match ended early')))
  })
  return plan.finally(() => {
    signal?.removeEventListener('abort', halt)
    void worker.terminate()
  })
}
