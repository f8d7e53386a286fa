/** Ranges are claimed in units of so many bytes. */
export const unitBytes = 8 * 2 ** 20
/** Longest range that is claimed at once, units: what is noted of a range is held in memory. */
const longest = 4

/**
 * Who reads which part of a file: one thread from its begin, unit after unit, the others from its end, range
 * after range, shorter ones as less is left.
 */
export class RangeClaims {
  /** For each unit whether somebody has it; all threads see it. */
  #taken
  #threads

  /** @param claims - of `make`, in whatever thread */
  constructor({ taken, threads }) {
    this.#taken = taken
    this.#threads = threads
  }

  static make(size, threads) {
    const units = Math.ceil(size / unitBytes)
    return { taken: new Int32Array(new SharedArrayBuffer(4 * units)), threads }
  }

  /** Claims the unit that begins at a byte; false where another has it. */
  fromBegin(byte) {
    return this.#claim(byte / unitBytes)
  }

  /** Claims the last range that nobody has, from one byte to another; null where there is none. */
  fromEnd() {
    for (;;) {
      let end = this.#taken.length
      while (end > 0 && Atomics.load(this.#taken, end - 1) === 1) end -= 1
      // The first one is for who reads from the begin.
      if (end <= 1) return null
      const free = this.#taken.filter((isTaken) => isTaken === 0).length
      const wanted = Math.min(longest, Math.max(1, Math.floor(free / (2 * this.#threads))))
      let from = end
      while (from > 1 && end - from < wanted && this.#claim(from - 1)) from -= 1
      if (from < end) return { from: from * unitBytes, end: end * unitBytes }
    }
  }

  #claim(unit) {
    return Atomics.compareExchange(this.#taken, unit, 0, 1) === 0
  }
}
