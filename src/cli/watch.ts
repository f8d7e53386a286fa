import { setImmediate, setTimeout } from 'node:timers/promises'
import type { WatchJson } from '../contract/index.ts'
import type { PrintOfFile, ReadOptions } from '../print/index.ts'
import { callInBrief, checkedToJson, isOfOnePrint } from './check-several.ts'
import type { CheckText } from './check-text.ts'
import type { Checked } from './checker.ts'
import { exitCode, Fault } from './fault.ts'
import { FolderFollower } from './folder-follower.ts'
import { drawnOfFollowed, type FollowedPrint, followedPrint } from './followed-print.ts'
import { likeliest } from './likeliest.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { printIdOf, printRowOfInput } from './print-row-of-input.ts'
import { Progress } from './progress.ts'
import { faultOfFile, type Input } from './read-input.ts'
import { ReadingPool } from './reading-pool.ts'
import { ShelfFollower } from './shelf-follower.ts'
import { shown, type Terminal } from './terminal.ts'
import { type WatchTold, watchReport } from './watch-report.ts'

/** What was typed after `watch`. */
export interface WatchText extends CheckText {
  readonly keep?: boolean
}

/** How often the ledger is looked at, ms. */
const shelfEvery = 1000
/** How often a file that may be half-written is read again, and how long after, ms; doubled each time. */
const mostRetries = 4
const firstRetry = 2000
const progressEvery = 100

interface Judged extends FollowedPrint {
  readonly kept: boolean
  /** What of the last verdict a person would miss if it were another. */
  last: string
}

type Event = WatchJson extends infer Each
  ? Each extends WatchJson
    ? Omit<Each, 'at'>
    : never
  : never

/** Follows a folder and the shelf until it is told to end. */
export class Watch {
  readonly #terminal: Terminal
  readonly #typed: WatchText
  readonly #inJson: boolean
  readonly #follower: FolderFollower
  readonly #shelf: ShelfFollower
  readonly #options: ReadOptions
  /** Reads by what the printer may do; made anew where the shelf says otherwise. */
  #pool: ReadingPool | undefined
  #planned = ''
  /** Prints of each file that was read. */
  readonly #prints = new Map<string, readonly Judged[]>()
  /** How often each file was read again, that may be half-written. */
  readonly #retries = new Map<string, number>()
  readonly #progress = new Progress(process.stderr)
  readonly #folder: string
  #reading = 0
  #ended = false
  #trouble: string | undefined

  constructor(terminal: Terminal, folder: string, typed: WatchText) {
    this.#terminal = terminal
    this.#folder = folder
    this.#typed = typed
    this.#inJson = typed.json === true
    this.#shelf = new ShelfFollower(typed, typed.keep === true)
    // Read under every firmware family: which one runs the printer the shelf may say later.
    const { firmware: _firmware, ...options } = parseFileOptions(typed)
    this.#options = options
    this.#follower = new FolderFollower(
      folder,
      {
        ready: (file) => void this.#read(file),
        gone: (file) => this.#forget(file),
        reachable: (error) => this.#reach(error),
        crowded: (most) =>
          this.#tellTrouble(
            'too_many_prints',
            `There are more prints here than are followed: only ${most.toLocaleString('en-GB')} are.`,
          ),
      },
      { deep: typed.subfolders === true },
    )
  }

  /** @throws Fault of wrong usage: what was typed does not suit the shelf */
  async run(signal: AbortSignal): Promise<void> {
    const progress = setInterval(() => this.#showProgress(), progressEvery)
    try {
      await this.#shelf.look()
      this.#tell({
        event: 'watching',
        folder: this.#folder,
        subfolders: this.#typed.subfolders === true,
      })
      this.#tellShelfTrouble()
      const { revision, reels } = this.#shelf.now
      if (this.#trouble === undefined) this.#tell({ event: 'shelf', revision, reels })
      await this.#follower.follow()
      await this.#followShelf(signal)
    } finally {
      this.#ended = true
      clearInterval(progress)
      await this.#follower.stop()
      await this.#pool?.end()
      await this.#shelf.close()
      this.#progress.end()
    }
    this.#tell({ event: 'ended', prints: [...this.#prints.values()].flat().length })
  }

  async #followShelf(signal: AbortSignal): Promise<void> {
    while (!signal.aborted) {
      try {
        // oxlint-disable-next-line no-await-in-loop -- until it is told to end
        await setTimeout(shelfEvery, undefined, { signal })
      } catch {
        return
      }
      // oxlint-disable-next-line no-await-in-loop -- as above
      await this.#lookAtShelf(signal)
    }
  }

  async #lookAtShelf(signal: AbortSignal): Promise<void> {
    try {
      const isChanged = await this.#shelf.look()
      this.#tellShelfTrouble()
      if (isChanged) await this.#judgeAnew(signal)
    } catch (error) {
      if (!(error instanceof Fault)) throw error
      // A printer that was named is gone, say: nothing is lost, and it may come back.
      this.#tellTrouble(error.error.code, error.error.message)
    }
  }

  /** Judges everything by the shelf as it is now, and tells what is another than before. */
  async #judgeAnew(signal: AbortSignal): Promise<void> {
    const changed: { readonly print: Judged; readonly found: Checked | undefined }[] = []
    let count = 0
    for (const prints of this.#prints.values()) {
      for (const print of prints) {
        if (signal.aborted) return
        // oxlint-disable-next-line no-await-in-loop -- so that files and Ctrl-C are heeded meanwhile
        if (++count % 8 === 0) await setImmediate()
        const found = this.#judge(print)
        const now = markOf(found)
        if (now === print.last) continue
        print.last = now
        changed.push({ print, found })
      }
    }
    const { revision, reels } = this.#shelf.now
    this.#tell({ event: 'shelf', revision, reels }, { changed: changed.length })
    for (const { print, found } of changed) this.#tellJudged('shelf', print, found)
  }

  #poolNow(): ReadingPool {
    const { motion } = this.#shelf.now
    const planned = JSON.stringify(motion)
    if (this.#pool !== undefined && (planned === this.#planned || this.#reading > 0)) {
      return this.#pool
    }
    void this.#pool?.end()
    this.#planned = planned
    this.#pool = new ReadingPool({ ...this.#options, motion })
    return this.#pool
  }

  async #read(file: string): Promise<void> {
    const mark = this.#follower.markOf(file)
    const pool = this.#poolNow()
    this.#reading++
    try {
      const input = await pool.read(file)
      if (this.#ended || !this.#follower.isCurrent(file, mark)) return
      await this.#take(file, input)
    } catch (error) {
      if (!this.#ended) this.#refuse(file, mark, error)
    } finally {
      this.#reading--
    }
  }

  async #take(file: string, input: Input): Promise<void> {
    this.#retries.delete(file)
    const isInFull = this.#typed.reel !== undefined
    const prints = await Promise.all(
      input.print.prints.map(async (print): Promise<Judged> => {
        const isKept =
          (await this.#shelf.keeps(printIdOf(input, print))) || (await this.#keep(input, print))
        return { ...followedPrint(input, print, isInFull), kept: isKept, last: '' }
      }),
    )
    if (this.#ended) return
    this.#prints.set(file, prints)
    for (const print of prints) {
      const found = this.#judge(print)
      print.last = markOf(found)
      this.#tellJudged('read', print, found)
    }
  }

  async #keep(input: Input, print: PrintOfFile): Promise<boolean> {
    if (this.#typed.keep !== true) return false
    const kept = await this.#shelf.keep(printRowOfInput(input, print, Date.now()))
    if (!kept.ok) this.#tellTrouble(kept.refusal.code, kept.refusal.message)
    return kept.ok
  }

  /** Undefined where there is no shelf to judge by, or the reel that is named does not suit the print. */
  #judge(print: FollowedPrint): Checked | undefined {
    const { judge, firmware } = this.#shelf.now
    try {
      return judge?.(drawnOfFollowed(print, firmware))
    } catch (error) {
      if (isOfOnePrint(error)) return undefined
      throw error
    }
  }

  /** What can not be read is told; while it is young it may be half-written, and is read again. */
  #refuse(file: string, mark: string | undefined, thrown: unknown): void {
    const error = faultOfFile(thrown, file)
    if (!(error instanceof Fault)) throw thrown
    const { code } = error.error
    if (error.exit !== exitCode.unreadable || !this.#follower.isCurrent(file, mark)) return
    this.#prints.delete(file)
    // It changed, or is no longer there: the next look says which.
    if (code === 'file_changed' || code === 'missing_file') {
      this.#follower.again(file, firstRetry)
      return
    }
    const tried = this.#retries.get(file) ?? 0
    const isAgain = tried < mostRetries && this.#follower.isYoung(file)
    if (isAgain) {
      this.#retries.set(file, tried + 1)
      this.#follower.again(file, firstRetry * 2 ** tried)
    } else this.#retries.delete(file)
    if (!isAgain || tried === 0) this.#tell({ event: 'unread', again: isAgain, error: error.error })
  }

  #forget(file: string): void {
    this.#prints.delete(file)
    this.#retries.delete(file)
    this.#tell({ event: 'gone', file })
  }

  #reach(error: unknown): void {
    if (error === undefined) {
      this.#tell({ event: 'mended', what: 'folder' })
      return
    }
    this.#prints.clear()
    const fault = faultOfFile(error, this.#folder)
    const { code } = fault instanceof Fault ? fault.error : { code: 'unreadable_folder' }
    this.#tellTrouble(
      code,
      `${this.#folder} can not be looked into for the moment. What was in it is read anew when it is back.`,
    )
  }

  #tellShelfTrouble(): void {
    const { trouble } = this.#shelf
    if (trouble?.code === this.#trouble) return
    this.#trouble = trouble?.code
    if (trouble === undefined) this.#tell({ event: 'mended', what: 'ledger' })
    else this.#tell({ event: 'trouble', error: trouble })
  }

  #tellTrouble(code: string, message: string): void {
    this.#tell({ event: 'trouble', error: new Fault(exitCode.ledger, { code, message }).error })
  }

  #tellJudged(
    why: 'read' | 'shelf',
    { print, kept, ...judged }: Judged,
    found: Checked | undefined,
  ): void {
    const { tools } = drawnOfFollowed({ print, ...judged }, this.#shelf.now.firmware)
    this.#tell(
      {
        event: 'judged',
        why,
        print,
        tools: tools.map(({ tool, draw }) => ({ tool, peak_mm: likeliest(draw).peak_mm })),
        kept,
        check: found === undefined ? null : { ...checkedToJson(found), print },
      },
      found === undefined ? { isUnsuited: this.#shelf.now.judge !== undefined } : { found },
    )
  }

  #tell(event: Event, more: Omit<WatchTold, 'told' | 'folder'> = {}): void {
    const told = { ...event, at: new Date().toISOString() } as WatchJson
    this.#progress.end()
    const text = this.#inJson
      ? `${JSON.stringify(told)}\n`
      : shown(this.#terminal, watchReport(this.#terminal, { told, folder: this.#folder, ...more }))
    process.stdout.write(text)
  }

  #showProgress(): void {
    if (this.#reading === 0) {
      this.#progress.end()
      return
    }
    const read = this.#prints.size
    this.#progress.many({
      files: read,
      ofFiles: read + this.#reading,
      bytes: this.#pool?.underWay ?? 0,
      ofBytes: 0,
      name: this.#pool?.current ?? '',
    })
  }
}

/** Equal for two verdicts that a person would not tell apart. */
const markOf = (found: Checked | undefined): string =>
  found === undefined ? '' : callInBrief(found)
