/** What progress is written to: standard error, or a stand-in for it. */
export interface ProgressScreen {
  readonly isTTY?: boolean
  readonly write: (text: string) => unknown
}

/** Nothing is shown of what is done sooner, ms. */
const patience = 500
const interval = 100

/** Share and speed of a long read, on a terminal only. */
export class Progress {
  readonly #screen: ProgressScreen
  readonly #now: () => number
  readonly #begun: number
  #shown = 0

  /** @param now - milliseconds of any clock */
  constructor(screen: ProgressScreen, now: () => number = () => performance.now()) {
    this.#screen = screen
    this.#now = now
    this.#begun = now()
  }

  /**
   * So many bytes are read.
   *
   * @param total - of the file, or 0 where it is not known
   */
  at(bytes: number, total: number, name: string): void {
    if (this.#screen.isTTY !== true) return
    const now = this.#now()
    const elapsed = now - this.#begun
    if (elapsed < patience || now - this.#shown < interval) return
    this.#shown = now
    const share = total > 0 ? `${Math.min(100, Math.floor((100 * bytes) / total))} %` : ''
    const speed = `${Math.round(bytes / 1000 / elapsed)} MB/s`
    this.#screen.write(`\r\u001B[K${share.padStart(6)}  ${speed.padStart(9)}  ${name.slice(-50)}`)
  }

  /** Clears the line, where there is one. */
  end(): void {
    if (this.#shown > 0) this.#screen.write('\r\u001B[K')
  }
}
