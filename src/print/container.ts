import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import {
  type ContainerLimits,
  containerLimits,
  InflationMeter,
  stopContainer,
} from './container-limits.ts'
import { GzipSource } from './gzip-source.ts'
import type { Container, PrintFile, PrintOfFile } from './print-file.ts'
import { PrintReader } from './print-reader.ts'
import type { ContainerSource, PrintSink } from './print-sink.ts'
import { ReadStop } from './read-stop.ts'
import type { ReadOptions } from './reading.ts'
import { ZipSource } from './zip-source.ts'

/** Bytes by which a container is known. */
export const magicLength = 4

/**
 * Reads a print file in slices of any size, in constant memory: plain machine code, gzip, or a zip
 * in which every member that ends in .gcode, .gco, .g or .nc is a print of its own.
 *
 * Slices may be reused by the caller after each `push`. What comes out does not depend on where
 * the file is cut. Refusals are those of `PrintReader` and `container_truncated`,
 * `container_corrupt`, `container_bomb`, `container_encrypted`, `container_unsupported`,
 * `container_multi_part`, `container_too_many_members`, `container_nested`, `no_print_in_zip`.
 *
 * @example
 * const reader = new PrintFileReader()
 * for (const slice of slices) reader.push(slice)
 * const file = reader.finish()
 */
export class PrintFileReader {
  readonly #options: ReadOptions
  readonly #limits: ContainerLimits
  readonly #head = new Uint8Array(magicLength)
  #headLength = 0
  #container: Container | null = null
  #source: ContainerSource | null = null
  #plain: PrintReader | null = null
  readonly #prints: PrintOfFile[] = []
  #refusal: Refusal | null = null

  constructor(options: ReadOptions = {}, limits: ContainerLimits = containerLimits) {
    this.#options = options
    this.#limits = limits
  }

  /** Why the file was refused, as soon as that is known: no need to push more. */
  get refusal(): Refusal | null {
    return this.#refusal ?? this.#plain?.refusal ?? null
  }

  /** Takes the next bytes of the file. */
  push(slice: Uint8Array): void {
    if (this.refusal !== null) return
    try {
      this.#push(slice)
    } catch (error) {
      this.#refuse(error)
    }
  }

  #push(slice: Uint8Array): void {
    if (this.#container !== null) {
      this.#give(slice)
      return
    }
    const wanted = Math.min(magicLength - this.#headLength, slice.length)
    this.#head.set(slice.subarray(0, wanted), this.#headLength)
    this.#headLength += wanted
    if (this.#headLength < magicLength) return
    this.#begin()
    this.#give(slice.subarray(wanted))
  }

  /** Decides what the file is, and hands the head on. */
  #begin(): void {
    const head = this.#head.subarray(0, this.#headLength)
    this.#container = containerOf(head)
    const meter = new InflationMeter(this.#limits)
    if (this.#container === 'gzip') this.#source = new GzipSource(meter, this.#sink())
    else if (this.#container === 'zip') this.#source = new ZipSource(meter, this.#sink())
    else this.#plain = new PrintReader(this.#options)
    this.#give(head)
  }

  #give(bytes: Uint8Array): void {
    if (this.#plain !== null) this.#plain.push(bytes)
    else this.#source?.push(bytes)
  }

  /** Reads each print that comes out of a container. */
  #sink(): PrintSink {
    let name: string | null = null
    let reader = new PrintReader(this.#options)
    let head: number[] = []
    const stop = (refusal: Refusal): never => {
      throw new ReadStop(
        name === null ? refusal : { ...refusal, message: `"${name}": ${refusal.message}` },
      )
    }
    return {
      open: (member) => {
        name = member
        reader = new PrintReader(this.#options)
        head = []
      },
      write: (bytes) => {
        if (head.length < magicLength) {
          head.push(...bytes.subarray(0, magicLength - head.length))
          if (containerOf(Uint8Array.from(head)) !== 'plain') {
            stopContainer(
              'container_nested',
              'There is an archive inside the archive. Unpack it and give the machine code.',
            )
          }
        }
        reader.push(bytes)
        if (reader.refusal !== null) stop(reader.refusal)
      },
      close: () => {
        const outcome = reader.finish()
        if (outcome.ok) this.#prints.push({ name, reading: outcome.value })
        else stop(outcome.refusal)
      },
    }
  }

  /** Ends the file and says what was found in it. Call once. */
  finish(): Outcome<PrintFile> {
    try {
      if (this.refusal === null) this.#end()
    } catch (error) {
      this.#refuse(error)
    }
    return this.refusal === null
      ? accept({ container: this.#container ?? 'plain', prints: this.#prints })
      : refuse(this.refusal)
  }

  #end(): void {
    if (this.#container === null) this.#begin()
    this.#source?.finish()
    if (this.#plain === null) return
    const outcome = this.#plain.finish()
    if (outcome.ok) this.#prints.push({ name: null, reading: outcome.value })
    else throw new ReadStop(outcome.refusal)
  }

  #refuse(error: unknown): void {
    if (error instanceof ReadStop) {
      this.#refusal = error.refusal
    } else if (this.#source !== null && isInflateError(error)) {
      this.#refusal = {
        code: 'container_corrupt',
        message:
          'The archive is damaged: what is in it can not be unpacked. Pack or copy it again.',
      }
    } else throw error
    this.#source = null
  }
}

/** fflate marks its errors with a number. */
export const isInflateError = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && typeof error.code === 'number'

/** What a file is by its first bytes. */
export function containerOf(head: Uint8Array): Container {
  const [a, b, c, d] = head
  if (a === 0x1f && b === 0x8b) return 'gzip'
  if (a !== 0x50 || b !== 0x4b) return 'plain'
  // A member, the end of an empty zip, or the mark of a zip in parts.
  if ((c === 3 && d === 4) || (c === 5 && d === 6)) return 'zip'
  if ((c === 7 && d === 8) || (c === 0x30 && d === 0x30)) {
    return stopContainer(
      'container_multi_part',
      'The zip is one of several parts. Join or unpack them and give the machine code.',
    )
  }
  return 'plain'
}

/**
 * Reads a whole print file given as slices.
 *
 * @returns the prints in it, or why it was refused
 */
export function readPrintFile(
  slices: Iterable<Uint8Array>,
  options: ReadOptions = {},
  limits: ContainerLimits = containerLimits,
): Outcome<PrintFile> {
  const reader = new PrintFileReader(options, limits)
  for (const slice of slices) {
    reader.push(slice)
    if (reader.refusal !== null) break
  }
  return reader.finish()
}
