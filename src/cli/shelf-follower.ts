import type { ErrorPartJson, PrintRowJson } from '../contract/index.ts'
import type { MotionOptions } from '../print/index.ts'
import { isInUse, type ShelfView, shelfView } from '../service/index.ts'
import { type Store, StoreFault } from '../store/index.ts'
import { millimetres, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { judgeByNamed } from './check-named-reels.ts'
import { judgeOverShelf } from './check-over-shelf.ts'
import type { CheckText } from './check-text.ts'
import type { Checker } from './checker.ts'
import { Fault } from './fault.ts'
import { isLedgerThere } from './ledger-folder.ts'
import { openStoreIn } from './open-store.ts'
import { shelfPrinter } from './shelf-printer.ts'
import type { Drawn } from './what-is-drawn.ts'
import { whichCheck } from './which-check.ts'

/** The shelf as it stood when it was last looked at. */
export interface ShelfNow {
  /** Of the ledger; null while there is none. */
  readonly revision: number | null
  /** In use. */
  readonly reels: number
  /** Firmware family of the printer, as typed or as the shelf has it. */
  readonly firmware?: string
  /** Absent while no reel is in use. */
  readonly judge?: Checker['judge']
  /** What the shelf has of the printer's motion. */
  readonly motion: MotionOptions
}

const anyDraw: Drawn = {
  tools: [{ tool: 0, draw: [{ weight: 1, peak_mm: millimetres(1) }] }],
  findings: [],
}

/**
 * Looks now and then whether anybody wrote to the ledger, and judges by what it says. Where there is
 * no ledger it waits for one; while it can not be read the shelf stays as it was.
 */
export class ShelfFollower {
  readonly #typed: CheckText
  readonly #begins: boolean
  #store: Store | undefined
  /** Why the ledger can not be read for the moment. */
  trouble: ErrorPartJson | undefined
  now: ShelfNow = { revision: null, reels: 0, motion: {} }

  /** @param begins - a ledger where there is none */
  constructor(typed: CheckText, begins: boolean) {
    this.#typed = typed
    this.#begins = begins
  }

  /**
   * @returns whether the shelf is another than before
   * @throws Fault of wrong usage: what was typed does not suit the shelf
   */
  async look(): Promise<boolean> {
    try {
      const store = await this.#opened()
      if (store === undefined) return false
      const revision = await store.revision()
      if (revision === this.now.revision) {
        this.trouble = undefined
        return false
      }
      const view = await shelfView(store)
      if (!view.ok) return this.#note(view.refusal)
      this.now = this.#shelfOf(view.value)
      this.trouble = undefined
      return true
    } catch (error) {
      if (error instanceof StoreFault) return this.#note(error.refusal)
      throw error
    }
  }

  #shelfOf(view: ShelfView): ShelfNow {
    const reels = [...view.cards.values()].filter(isInUse).length
    const { motion, firmware: usual } = shelfPrinter(view, this.#typed)
    const { firmware = usual } = this.#typed
    return {
      revision: view.revision,
      reels,
      motion,
      ...(firmware !== undefined && { firmware }),
      ...(reels > 0 && { judge: this.#judgeOver(view) }),
    }
  }

  #judgeOver(view: ShelfView): Checker['judge'] {
    if (whichCheck(this.#typed) === 'named') {
      const judge = judgeByNamed({ view, now: Date.now() }, this.#typed)
      // What was typed wrong of the reel is told before there is a print.
      judge(anyDraw)
      return judge
    }
    const judge = judgeOverShelf({ view, found: true }, this.#typed)
    return (drawn) => ({ kind: 'shelf', found: judge(drawn) })
  }

  /** Keeps what was read of a print. @returns refusals as `Store.append` */
  async keep(row: PrintRowJson): Promise<Outcome<unknown>> {
    const store = await this.#opened()
    if (store !== undefined) return store.append([row])
    const { code = 'ledger_closed', message = 'The ledger is not open.' } = this.trouble ?? {}
    return refuse({ code, message })
  }

  /** Whether the ledger keeps a print. */
  async keeps(id: string): Promise<boolean> {
    try {
      return (await this.#store?.print(id)) !== undefined
    } catch (error) {
      if (error instanceof StoreFault) return false
      throw error
    }
  }

  async close(): Promise<void> {
    await this.#store?.close()
    this.#store = undefined
  }

  async #opened(): Promise<Store | undefined> {
    if (this.#store !== undefined) return this.#store
    const { data } = this.#typed
    if (!this.#begins && !(await isLedgerThere(data))) return undefined
    const opened = await openStoreIn(data ?? process.env['REELRECKON_DATA'])
    if (opened.ok) this.#store = opened.value
    else this.#note(opened.refusal)
    return this.#store
  }

  #note({ code, message }: Refusal): false {
    this.trouble = new Fault(0, { code, message }).error
    return false
  }
}
