/** Numbers in the largest piece of a room, unless more are asked for at once. */
const largest = 2 ** 17

/**
 * Hands out arrays of zeros that lie one after the other in a few large pieces of memory: of many thousands
 * of small ones, having them costs more than the arithmetic in them. A piece lasts as long as any part of it.
 */
export class NumberRoom {
  readonly #pieces: Float64Array[] = []
  #piece = 0
  #used = 0

  take(size: number): Float64Array {
    for (;;) {
      const piece = this.#pieces[this.#piece]
      if (piece === undefined) {
        const before = this.#pieces.at(-1)?.length ?? 0
        this.#pieces.push(new Float64Array(Math.max(size, Math.min(2 * before, largest))))
      } else if (this.#used + size <= piece.length) {
        return piece.subarray(this.#used, (this.#used += size))
      } else {
        this.#piece++
        this.#used = 0
      }
    }
  }

  /** Takes back all that was handed out: it is handed out again. */
  clear(): void {
    for (const piece of this.#pieces) piece.fill(0)
    this.#piece = 0
    this.#used = 0
  }
}
