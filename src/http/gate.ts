/**
 * Keeps apart what must not happen at once: writes go one after another, so that what one has tested
 * still holds when it writes; what puts another ledger in place waits until nobody uses the old one.
 */
export class Gate {
  #writes: Promise<unknown> = Promise.resolve()
  #inside = 0
  #closed: Promise<void> | undefined
  #empty: (() => void) | undefined

  /** Beside other reads, and beside a write. */
  async read<T>(work: () => Promise<T>): Promise<T> {
    // oxlint-disable-next-line no-await-in-loop -- another may have closed it before its turn came
    while (this.#closed !== undefined) await this.#closed
    this.#inside++
    try {
      return await work()
    } finally {
      this.#inside--
      if (this.#inside === 0) this.#empty?.()
    }
  }

  /** After the writes before it. */
  write<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#writes.then(() => this.read(work))
    this.#writes = turn.catch(() => undefined)
    return turn
  }

  /** With nobody else inside. */
  alone<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#writes.then(async () => {
      const { promise, resolve } = Promise.withResolvers<void>()
      this.#closed = promise
      try {
        if (this.#inside > 0) {
          const left = Promise.withResolvers<void>()
          this.#empty = left.resolve
          await left.promise
        }
        return await work()
      } finally {
        this.#empty = undefined
        this.#closed = undefined
        resolve()
      }
    })
    this.#writes = turn.catch(() => undefined)
    return turn
  }
}
