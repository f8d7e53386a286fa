import { sheetWidth } from './wrap.ts'

/** What progress is written to: standard error, or a stand-in for it. */
export interface ProgressScreen {
  readonly isTTY?: boolean
  readonly write: (text: string) => unknown
}

/** Nothing is shown of what is done sooner, ms. */
const patience = 500
const interval = 100
const clear = '\r\u001B[K'

/** How far many files are. */
export interface ManyDone {
  readonly files: number
  readonly ofFiles: number
  readonly bytes: number
  /** 0 where it is not known. */
  readonly ofBytes: number
  /** One that is read now. */
  readonly name: string
}

/** How far long work is, on a terminal only. */
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
   * So many bytes of one file are read.
   *
   * @param total - of the file, or 0 where it is not known
   */
  at(bytes: number, total: number, name: string): void {
    this.#show(
      (elapsed) =>
        `${shareOf(bytes, total).padStart(6)}  ${speedOf(bytes, elapsed)}  ${name.slice(-50)}`,
    )
  }

  /** So many files are read. */
  many({ files, ofFiles, bytes, ofBytes, name }: ManyDone): void {
    this.#show((elapsed) => {
      const count = `${files} of ${ofFiles} files`
      const left = leftOf(bytes, ofBytes, elapsed)
      const line = `${shareOf(bytes, ofBytes).padStart(6)}  ${count}  ${speedOf(bytes, elapsed)}${left}  `
      const room = sheetWidth - 1 - line.length
      return line + (name.length > room ? `…${name.slice(1 - room)}` : name)
    })
  }

  #show(line: (elapsed: number) => string): void {
    if (this.#screen.isTTY !== true) return
    const now = this.#now()
    const elapsed = now - this.#begun
    if (elapsed < patience || now - this.#shown < interval) return
    this.#shown = now
    this.#screen.write(`${clear}${line(elapsed)}`)
  }

  /** Clears the line, where there is one. */
  end(): void {
    if (this.#shown > 0) this.#screen.write(clear)
    this.#shown = 0
  }
}

const shareOf = (bytes: number, total: number): string =>
  total > 0 ? `${Math.min(100, Math.floor((100 * bytes) / total))} %` : ''

const speedOf = (bytes: number, elapsed: number): string =>
  `${Math.round(bytes / 1000 / elapsed)} MB/s`.padStart(9)

/** Told once it can be guessed, and is worth waiting for. */
const leftOf = (bytes: number, total: number, elapsed: number): string => {
  if (bytes === 0 || bytes >= total || elapsed < 4 * patience) return ''
  const seconds = ((total - bytes) / bytes) * (elapsed / 1000)
  if (seconds < 5) return ''
  return seconds < 90
    ? `  ${Math.ceil(seconds / 5) * 5} s left`
    : `  ${Math.round(seconds / 60)} min left`
}
