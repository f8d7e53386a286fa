import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { containerOf, magicLength } from './container-kind.ts'
import { type ContainerLimits, InflationMeter } from './container-limits.ts'
import { GzipSource } from './gzip-source.ts'
import type { Container } from './print-file.ts'
import type { ContainerSource, PrintSink } from './print-sink.ts'
import { ReadStop } from './read-stop.ts'
import { ZipSource } from './zip-source.ts'

/**
 * Takes a file in slices of any size and hands the machine code of its prints on, one after another:
 * plain as it is, or out of a gzip or zip. What the sink throws as `ReadStop` ends it, as does a
 * container that is damaged.
 */
export class Unpacking {
  /** What the file is, once that is known. */
  container: Container | null = null
  /** Why it was refused; no need to push more. */
  refusal: Refusal | null = null
  readonly #sink: PrintSink
  readonly #limits: ContainerLimits
  readonly #head = new Uint8Array(magicLength)
  #headLength = 0
  #source: ContainerSource | null = null

  constructor(sink: PrintSink, limits: ContainerLimits) {
    this.#sink = sink
    this.#limits = limits
  }

  /** Takes the next bytes of the file. */
  push(slice: Uint8Array): void {
    if (this.refusal !== null) return
    try {
      if (this.container === null) this.#look(slice)
      else this.#give(slice)
    } catch (error) {
      this.#refuse(error)
    }
  }

  /** Call once, after the last slice. */
  finish(): Outcome<Container> {
    try {
      if (this.refusal === null && this.container === null) this.#begin()
      if (this.refusal === null) {
        if (this.#source === null) this.#sink.close()
        else this.#source.finish()
      }
    } catch (error) {
      this.#refuse(error)
    }
    return this.refusal === null ? accept(this.container ?? 'plain') : refuse(this.refusal)
  }

  /** Holds the first bytes back until they tell what the file is. */
  #look(slice: Uint8Array): void {
    const wanted = Math.min(magicLength - this.#headLength, slice.length)
    this.#head.set(slice.subarray(0, wanted), this.#headLength)
    this.#headLength += wanted
    if (this.#headLength < magicLength) return
    this.#begin()
    this.#give(slice.subarray(wanted))
  }

  #begin(): void {
    const head = this.#head.subarray(0, this.#headLength)
    this.container = containerOf(head)
    const meter = new InflationMeter(this.#limits)
    if (this.container === 'gzip') this.#source = new GzipSource(meter, this.#sink)
    else if (this.container === 'zip') this.#source = new ZipSource(meter, this.#sink)
    else this.#sink.open(null)
    this.#give(head)
  }

  #give(bytes: Uint8Array): void {
    if (this.#source === null) this.#sink.write(bytes)
    else this.#source.push(bytes)
  }

  #refuse(error: unknown): void {
    if (error instanceof ReadStop) this.refusal = error.refusal
    else if (this.#source !== null && isInflateError(error)) {
      this.refusal = {
        code: 'container_corrupt',
        message:
          'The archive is damaged: what is in it can not be unpacked. Pack or copy it again.',
      }
    } else throw error
  }
}

/** fflate marks its errors with a number. */
export const isInflateError = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && typeof error.code === 'number'
