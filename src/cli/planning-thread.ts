import { extname } from 'node:path'
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import {
  type Clock,
  ClockTape,
  type MotionOptions,
  type Tape,
  type TapeLink,
  type TimesTold,
} from '../print/index.ts'
import { type PlanningOrder, planningState } from './planning-orders.ts'

/** Blocks of numbers that go round between both threads, and how long each is. */
const blocks = 16
const blockNumbers = 2 ** 14
/** A thread that has not moved for so long is lost, ms. */
const patience = 60_000

/** Works out the time along a print in a thread of its own while the file is read. */
export class PlanningThread {
  readonly #state = new Int32Array(new SharedArrayBuffer(3 * Int32Array.BYTES_PER_ELEMENT))
  readonly #blocks = Array.from(
    { length: blocks },
    () => new Float64Array(new SharedArrayBuffer(blockNumbers * Float64Array.BYTES_PER_ELEMENT)),
  )
  readonly #port: MessagePort
  readonly #worker: Worker
  #sent = 0
  #ended = 0

  constructor() {
    const file = new URL(`./planning-worker${extname(import.meta.filename)}`, import.meta.url)
    const { port1, port2 } = new MessageChannel()
    this.#port = port1
    this.#worker = new Worker(file, {
      workerData: { port: port2, state: this.#state, blocks: this.#blocks },
      transferList: [port2],
    })
    // A failure is told by the shared state, which is looked at where it matters.
    this.#worker.on('error', () => undefined)
    this.#worker.unref()
    port1.unref()
  }

  /** The clock of the next print; those before it must have ended. */
  readonly clockOf = (motion: MotionOptions): Clock => {
    this.#say({ begin: motion })
    const link: TapeLink = {
      block: () => this.#block(),
      send: (tape) => this.#send(tape),
      finish: () => this.#finish(),
    }
    return new ClockTape(link)
  }

  async end(): Promise<void> {
    this.#port.close()
    await this.#worker.terminate()
  }

  #say(order: PlanningOrder): void {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a port has no origin
    this.#port.postMessage(order)
  }

  #block(): Float64Array {
    // The one that was sent longest ago must have been played.
    this.#waitFor(planningState.played, this.#sent - blocks + 1)
    return this.#blocks[this.#sent % blocks] as Float64Array
  }

  #send({ length, things }: Tape): void {
    this.#say({ block: this.#sent % blocks, length, things })
    this.#sent++
  }

  #finish(): TimesTold {
    this.#say({ end: true })
    this.#ended++
    this.#waitFor(planningState.finished, this.#ended)
    return (receiveMessageOnPort(this.#port) as { readonly message: TimesTold }).message
  }

  /** Waits until a number of the shared state is so high. */
  #waitFor(which: number, wanted: number): void {
    for (;;) {
      const now = Atomics.load(this.#state, which)
      const failed = Atomics.load(this.#state, planningState.failed) !== 0
      if (!failed && now >= wanted) return
      if (failed || Atomics.wait(this.#state, which, now, patience) === 'timed-out') {
        throw new Error('the thread that plans the time along the print has failed')
      }
    }
  }
}
