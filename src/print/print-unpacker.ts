import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { containerOf, isInflateError, magicLength } from './container.ts'
import { type ContainerLimits, containerLimits, InflationMeter } from './container-limits.ts'
import { GzipSource } from './gzip-source.ts'
import type { ContainerSource, PrintSink } from './print-sink.ts'
import { ReadStop } from './read-stop.ts'
import { ZipSource } from './zip-source.ts'

/**
 * Hands on the machine code of one print of a file, unpacked, in constant memory: the bytes that
 * `PrintFileReader` reads, without reading them.
 */
export class PrintUnpacker {
  readonly #member: string | null
  readonly #write: (bytes: Uint8Array) => void
  readonly #limits: ContainerLimits
  readonly #head = new Uint8Array(magicLength)
  #headLength = 0
  #isBegun = false
  #source: ContainerSource | null = null
  #refusal: Refusal | null = null

  /**
   * @param member - name of the print in a zip; null where the file has one print without a name
   * @param write - takes slices that are good until it returns
   */
  constructor(
    member: string | null,
    write: (bytes: Uint8Array) => void,
    limits: ContainerLimits = containerLimits,
  ) {
    this.#member = member
    this.#write = write
    this.#limits = limits
  }

  push(slice: Uint8Array): void {
    if (this.#refusal !== null) return
    try {
      if (this.#isBegun) {
        this.#give(slice)
        return
      }
      const wanted = Math.min(magicLength - this.#headLength, slice.length)
      this.#head.set(slice.subarray(0, wanted), this.#headLength)
      this.#headLength += wanted
      if (this.#headLength < magicLength) return
      this.#begin()
      this.#give(slice.subarray(wanted))
    } catch (error) {
      this.#refuse(error)
    }
  }

  /** Call once, after the last slice. */
  finish(): Outcome<void> {
    try {
      if (!this.#isBegun && this.#refusal === null) this.#begin()
      if (this.#refusal === null) this.#source?.finish()
    } catch (error) {
      this.#refuse(error)
    }
    return this.#refusal === null ? accept(undefined) : refuse(this.#refusal)
  }

  #begin(): void {
    this.#isBegun = true
    const head = this.#head.slice(0, this.#headLength)
    const container = containerOf(head)
    const meter = new InflationMeter(this.#limits)
    if (container === 'gzip') this.#source = new GzipSource(meter, this.#sink())
    else if (container === 'zip') this.#source = new ZipSource(meter, this.#sink())
    this.#give(head)
  }

  #give(bytes: Uint8Array): void {
    if (this.#source === null) this.#write(bytes)
    else this.#source.push(bytes)
  }

  #sink(): PrintSink {
    let isMeant = false
    return {
      open: (name) => {
        isMeant = name === this.#member
      },
      write: (bytes) => {
        if (isMeant) this.#write(bytes)
      },
      close: () => undefined,
    }
  }

  #refuse(error: unknown): void {
    if (error instanceof ReadStop) this.#refusal = error.refusal
    else if (this.#source !== null && isInflateError(error)) {
      this.#refusal = {
        code: 'container_corrupt',
        message:
          'The archive is damaged: what is in it can not be unpacked. Pack or copy it again.',
      }
    } else throw error
  }
}
