import { accept, type Outcome } from '../units/index.ts'
import { type ContainerLimits, containerLimits } from './container-limits.ts'
import { Unpacking } from './unpacking.ts'

/**
 * Hands on the machine code of one print of a file, unpacked, in constant memory: the bytes that
 * `PrintFileReader` reads, without reading them.
 */
export class PrintUnpacker {
  readonly #unpacking: Unpacking

  /**
   * @param member - name of the print in a zip; null where the file has one print without a name
   * @param write - takes slices that are good until it returns
   */
  constructor(
    member: string | null,
    write: (bytes: Uint8Array) => void,
    limits: ContainerLimits = containerLimits,
  ) {
    let isMeant = false
    const sink = {
      open: (name: string | null) => {
        isMeant = name === member
      },
      write: (bytes: Uint8Array) => {
        if (isMeant) write(bytes)
      },
      close: () => undefined,
    }
    this.#unpacking = new Unpacking(sink, limits)
  }

  push(slice: Uint8Array): void {
    this.#unpacking.push(slice)
  }

  /** Call once, after the last slice. */
  finish(): Outcome<void> {
    const outcome = this.#unpacking.finish()
    return outcome.ok ? accept(undefined) : outcome
  }
}
