import type { ProgressScreen } from './progress.ts'

/** Nothing is shown of what is done sooner, ms. */
const patience = 700
const interval = 100

/** Share of long work, on a terminal only. */
export class WorkProgress {
  readonly #screen: ProgressScreen
  readonly #what: string
  readonly #now: () => number
  readonly #begun: number
  #shown = 0

  /** @param now - milliseconds of any clock */
  constructor(screen: ProgressScreen, what: string, now: () => number = () => performance.now()) {
    this.#screen = screen
    this.#what = what
    this.#now = now
    this.#begun = now()
  }

  /** @param done - share, 0 to 1 */
  at(done: number): void {
    if (this.#screen.isTTY !== true) return
    const now = this.#now()
    if (now - this.#begun < patience || now - this.#shown < interval) return
    this.#shown = now
    this.#screen.write(`\r\u001B[K${String(Math.floor(100 * done)).padStart(4)} %  ${this.#what}`)
  }

  /** Clears the line, where there is one. */
  end(): void {
    if (this.#shown > 0) this.#screen.write('\r\u001B[K')
  }
}
