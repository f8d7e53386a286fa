import { accept, type Outcome, type Refusal } from '../units/index.ts'
import type { ClockMaker } from './clock.ts'
import { containerOf, magicLength } from './container-kind.ts'
import { type ContainerLimits, containerLimits, stopContainer } from './container-limits.ts'
import type { PrintFile, PrintOfFile } from './print-file.ts'
import { PrintReader } from './print-reader.ts'
import type { PrintSink } from './print-sink.ts'
import { ReadStop } from './read-stop.ts'
import type { ReadOptions } from './reading.ts'
import { Unpacking } from './unpacking.ts'

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
  readonly #clockOf: ClockMaker | undefined
  readonly #prints: PrintOfFile[] = []
  readonly #unpacking: Unpacking

  /** @param clockOf - as `PrintReader` has it */
  constructor(
    options: ReadOptions = {},
    limits: ContainerLimits = containerLimits,
    clockOf?: ClockMaker,
  ) {
    this.#options = options
    this.#clockOf = clockOf
    this.#unpacking = new Unpacking(this.#sink(), limits)
  }

  /** Why the file was refused, as soon as that is known: no need to push more. */
  get refusal(): Refusal | null {
    return this.#unpacking.refusal
  }

  /** Takes the next bytes of the file. */
  push(slice: Uint8Array): void {
    this.#unpacking.push(slice)
  }

  /** Ends the file and says what was found in it. Call once. */
  finish(): Outcome<PrintFile> {
    const outcome = this.#unpacking.finish()
    return outcome.ok ? accept({ container: outcome.value, prints: this.#prints }) : outcome
  }

  /** Reads each print that comes out. */
  #sink(): PrintSink {
    let name: string | null = null
    let reader: PrintReader | null = null
    let head: number[] = []
    const stop = (refusal: Refusal): never => {
      throw new ReadStop(
        name === null ? refusal : { ...refusal, message: `"${name}": ${refusal.message}` },
      )
    }
    return {
      open: (member) => {
        name = member
        reader = new PrintReader(this.#options, this.#clockOf)
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
        reader?.push(bytes)
        if (reader?.refusal != null) stop(reader.refusal)
      },
      close: () => {
        const outcome = reader?.finish()
        if (outcome?.ok === true) this.#prints.push({ name, reading: outcome.value })
        else if (outcome !== undefined) stop(outcome.refusal)
      },
    }
  }
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
