/** So many wrong pass-phrases from one address cost nothing: people mistype. */
const free = 3
/** s */
const longest = 900
/** After so long without another, ms, they are forgotten. */
const forgottenAfter = 3_600_000
const most = 10_000

interface Failures {
  readonly count: number
  readonly at: number
}

/** Makes an address wait after wrong pass-phrases, twice as long each time: 1 s, 2 s, … 15 min. */
export class LogInDelay {
  readonly #failures = new Map<string, Failures>()
  readonly #now: () => number

  constructor(now: () => number) {
    this.#now = now
  }

  /** Seconds until this address may try again; 0 for now. */
  wait(address: string): number {
    const failed = this.#failures.get(address)
    if (failed === undefined || failed.count < free) return 0
    const delay = Math.min(longest, 2 ** (failed.count - free))
    return Math.max(0, Math.ceil((failed.at + delay * 1000 - this.#now()) / 1000))
  }

  /** Counted when it is tried, before it is known to be wrong, so that many at once are no way round. */
  tried(address: string): void {
    const before = this.#failures.get(address)
    const at = this.#now()
    const isFresh = before !== undefined && at - before.at < forgottenAfter
    this.#failures.delete(address)
    const oldest = this.#failures.keys().next()
    if (this.#failures.size >= most && oldest.done !== true) this.#failures.delete(oldest.value)
    this.#failures.set(address, { count: isFresh ? before.count + 1 : 1, at })
  }

  succeeded(address: string): void {
    this.#failures.delete(address)
  }
}
