/** Searches under way, by the names that those who asked gave them, so that they can be ended. */
export class Searches {
  readonly #running = new Map<string, Set<AbortController>>()

  /**
   * A search that ends with the best it has when it is ended by its name, or when whoever asked hangs up.
   *
   * @param name - without one only to hang up ends it
   */
  async run<T>(
    name: string | undefined,
    hungUp: AbortSignal,
    work: (signal: AbortSignal) => Promise<T>,
  ): Promise<T> {
    if (name === undefined) return work(hungUp)
    const own = new AbortController()
    const alike = this.#running.get(name) ?? new Set()
    this.#running.set(name, alike.add(own))
    try {
      return await work(AbortSignal.any([hungUp, own.signal]))
    } finally {
      alike.delete(own)
      if (alike.size === 0) this.#running.delete(name)
    }
  }

  /** False where no search of that name is under way. */
  end(name: string): boolean {
    const alike = this.#running.get(name)
    for (const each of alike ?? []) each.abort()
    return alike !== undefined
  }
}
