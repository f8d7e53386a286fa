/** Taken from a slice at once; headers are shorter than this nearly always. */
const portion = 4096

/**
 * Bytes kept until there are enough of them: headers and check sums of containers. What is asked
 * for must be taken as soon as it is there; then what is left over lies in the last slice.
 */
export class HeldBytes {
  bytes: Uint8Array = new Uint8Array(0)
  #slice: Uint8Array = new Uint8Array(0)
  #used = 0

  /** Takes a portion of a slice. @returns the rest of the slice */
  add(slice: Uint8Array): Uint8Array {
    const part = slice.subarray(0, portion)
    this.#slice = slice
    this.#used = part.length
    const joined = new Uint8Array(this.bytes.length + part.length)
    joined.set(this.bytes)
    joined.set(part, this.bytes.length)
    this.bytes = joined
    return slice.subarray(part.length)
  }

  /** The first `length` bytes, taken out, or null while there are fewer. */
  take(length: number): Uint8Array | null {
    if (this.bytes.length < length) return null
    const taken = this.bytes.subarray(0, length)
    this.bytes = this.bytes.subarray(length)
    return taken
  }

  /** Lets go of everything. @returns it, with what follows it in its slice */
  release(): Uint8Array {
    const rest = this.#slice.subarray(this.#used - this.bytes.length)
    this.bytes = new Uint8Array(0)
    this.#slice = this.bytes
    this.#used = 0
    return rest
  }
}
