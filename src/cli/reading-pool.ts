import { availableParallelism } from 'node:os'
import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { ErrorJson } from '../contract/index.ts'
import type { ReadOptions } from '../print/index.ts'
import { exitCode, Fault } from './fault.ts'
import type { Input } from './read-input.ts'

/** What a thread is told to read. */
export interface ReadOrder {
  readonly file: string
}

/** What it answers: the print, or why there is none. */
export type ReadAnswer =
  | { readonly input: Input }
  | { readonly exit: number; readonly error: ErrorJson['error'] }

interface Job extends ReadOrder {
  readonly done: (input: Input) => void
  readonly failed: (error: unknown) => void
}

interface Thread {
  readonly worker: Worker
  /** Bytes read of the file at hand. */
  readonly progress: Float64Array
  job: Job | undefined
}

/**
 * Reads print files in threads, as many at once as there are processors, in the order in which they
 * were asked for. Threads begin when there is something to read, and serve one file after another.
 */
export class ReadingPool {
  readonly #options: ReadOptions
  readonly #most: number
  readonly #threads: Thread[] = []
  readonly #waiting: Job[] = []
  #ended = false

  /**
   * @param most - threads at work at once
   * @param expected - files, if that is known: with few of them, each may use a processor more
   */
  constructor(
    options: ReadOptions,
    most: number = availableParallelism(),
    expected: number = Number.POSITIVE_INFINITY,
  ) {
    this.#options = options
    this.#most = Math.max(1, Math.min(most, expected))
    this.#apart = 2 * this.#most <= most
  }

  readonly #apart: boolean

  /** @throws Fault: unreadable input, or cancelled when the pool was ended */
  read(file: string): Promise<Input> {
    return new Promise((resolve, reject) => {
      const job = { file, done: resolve, failed: reject }
      if (this.#ended) reject(cancelled(file))
      else this.#waiting.push(job)
      this.#next()
    })
  }

  /** Bytes read of the files that are being read now. */
  get underWay(): number {
    return this.#threads.reduce((sum, { job, progress }) => sum + (job ? progress[0]! : 0), 0)
  }

  /** The file that has been read longest, of those that are being read now. */
  get current(): string | undefined {
    return this.#threads.find(({ job }) => job !== undefined)?.job?.file
  }

  /** Stops at once. What was asked for and is not read is refused as cancelled. */
  async end(): Promise<void> {
    this.#ended = true
    for (const { file, failed } of this.#waiting.splice(0)) failed(cancelled(file))
    const threads = this.#threads.splice(0)
    for (const { job } of threads) job?.failed(cancelled(job.file))
    await Promise.all(threads.map(({ worker }) => worker.terminate()))
  }

  #next(): void {
    if (this.#waiting.length === 0) return
    const idle = this.#threads.find(({ job }) => job === undefined)
    if (idle === undefined && this.#threads.length >= this.#most) return
    const thread = idle ?? this.#begin()
    const job = this.#waiting.shift()!
    thread.job = job
    thread.progress[0] = 0
    // An idle thread keeps nobody from leaving; one at work does.
    thread.worker.ref()
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has no origin
    thread.worker.postMessage({ file: job.file } satisfies ReadOrder)
    this.#next()
  }

  #begin(): Thread {
    const file = new URL(`./read-worker${extname(import.meta.filename)}`, import.meta.url)
    const progress = new Float64Array(new SharedArrayBuffer(8))
    const workerData = { options: this.#options, apart: this.#apart, progress }
    const worker = new Worker(file, { workerData })
    const thread: Thread = { worker, progress, job: undefined }
    worker.on('message', (answer: ReadAnswer) => {
      const { job } = thread
      thread.job = undefined
      worker.unref()
      if (job !== undefined) {
        if ('input' in answer) job.done(answer.input)
        else job.failed(new Fault(answer.exit, answer.error))
      }
      this.#next()
    })
    worker.on('error', (error) => this.#lose(thread, error))
    this.#threads.push(thread)
    return thread
  }

  /** One file on which the reader fails must not keep the others from being read. */
  #lose(thread: Thread, error: unknown): void {
    const at = this.#threads.indexOf(thread)
    if (at >= 0) this.#threads.splice(at, 1)
    const { job } = thread
    job?.failed(readerFailed(job.file, error))
    this.#next()
  }
}

const cancelled = (file: string): Fault =>
  new Fault(exitCode.cancelled, { code: 'cancelled', message: 'Cancelled.', file })

const readerFailed = (file: string, error: unknown): Fault =>
  new Fault(exitCode.unreadable, {
    code: 'reader_failed',
    message: `The reader itself failed on this file (${error instanceof Error ? error.message : String(error)}). That is a fault of Reelreckon: please report it with the file.`,
    file,
  })
