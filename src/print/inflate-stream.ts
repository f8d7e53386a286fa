import { Inflate } from 'fflate/browser'

/** Compressed bytes inflated at once: at most a thousand times as much comes out of them. */
const inflateSlice = 16_384

/**
 * The state that fflate keeps of a stream. It tells nobody where compressed data end, and that is
 * what gzip's check sum and zip's members without a stated size hang on. Its version is pinned, and
 * the tests that cut containers at every byte fail if these names change.
 */
interface InflateState {
  readonly s: { readonly f?: number; readonly l?: unknown; readonly p?: number }
  readonly p: Uint8Array
}

/**
 * Inflates one stretch of deflated data that ends where its last block ends.
 *
 * @see RFC 1951
 */
export class InflateStream {
  /** Compressed bytes taken so far, those being inflated included. */
  taken = 0
  ended = false
  readonly #inflate: Inflate

  /** @param out - called with each piece; the piece is the callee's to keep */
  constructor(out: (bytes: Uint8Array) => void) {
    this.#inflate = new Inflate((bytes) => {
      if (bytes.length > 0) out(bytes)
    })
  }

  /**
   * Takes bytes until the data end.
   *
   * @returns how many of the bytes belong to the data
   * @throws whatever fflate throws on corrupt data, and what `out` throws
   */
  push(bytes: Uint8Array): number {
    let at = 0
    while (at < bytes.length && !this.ended) {
      const part = bytes.subarray(at, at + inflateSlice)
      at += part.length
      this.taken += part.length
      this.#inflate.push(part, false)
      const { s: state, p: rest } = this.#inflate as unknown as InflateState
      // An end-of-block code is followed by no table; a begun last block has one.
      if (state.f && !state.l) {
        this.ended = true
        const beyond = rest.length - ((state.p ?? 0) > 0 ? 1 : 0)
        at -= beyond
        this.taken -= beyond
      }
    }
    return at
  }
}
