import type { WeighRequest } from '../../contract/index.ts'
import type { Api } from '../api/api.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { asksToLogIn, OutOfTouch, ProblemFault } from '../api/problem-fault.ts'
import { waitingWords } from '../strings/waiting-words.ts'
import { browserStore, type WaitingWeighing } from './browser-store.ts'
import { ledgerShown } from './ledger-shown.ts'

/** The weighing is kept in this browser until the server takes it; the cause is why it did not. */
export class WaitsHere extends Error {}

/** What says nothing of what was asked: another ledger takes its place, or others always came first. */
const forNow = new Set(['ledger_exchanged', 'changed_meanwhile'])

/** Before logging in, or while the server fails or is hindered, nothing is refused for good. */
export const isForNow = (fault: ProblemFault): boolean =>
  asksToLogIn(fault) || fault.problem.status >= 500 || forNow.has(fault.problem.code)

/** Whether another weighing may be taken though this one was not now. */
const failsAtOne = (error: unknown): boolean =>
  error instanceof ProblemFault && !asksToLogIn(error) && error.problem.code !== 'ledger_exchanged'

/** The reel, and the make, that a weighing is of. */
const weighedIn = ({ told: { reel, make } }: WaitingWeighing): readonly string[] =>
  [reel, make].filter((each) => each !== undefined)

/** Weighings typed while the server could not be reached, sent in the order in which they were made. */
export class WaitingWeighings {
  readonly #api: Pick<Api, 'weigh'>
  readonly #listeners = new Set<() => void>()
  #list: readonly WaitingWeighing[] = []
  #sending: Promise<void> | null = null

  /** Other pages of this browser are told when something changed, and tell. */
  readonly #others = new BroadcastChannel('reelreckon-waiting')

  constructor(api: Pick<Api, 'weigh'>) {
    this.#api = api
    this.#others.addEventListener('message', () => void this.look())
  }

  /** As last read; the same array until something changes. */
  list = (): readonly WaitingWeighing[] => this.#list

  /** @returns how to stop */
  listen = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  /**
   * Keeps a weighing.
   *
   * @param cause - why it can not be written down now
   * @returns that it is kept
   * @throws errors of the browser's store, where it is not
   */
  async keep(told: WeighRequest, cause: unknown): Promise<WaitsHere> {
    const id = told.id ?? newFactId()
    const at = told.at ?? new Date().toISOString()
    const db = await browserStore()
    await db.put('waiting', { id, at, told: { ...told, id, at }, ledger: ledgerShown() })
    await this.#changed()
    return new WaitsHere(waitingWords.waits(asksToLogIn(cause)), { cause })
  }

  /**
   * Sends what waits, until the server can not be reached, asks to log in or serves another ledger; what it
   * asks about stays. One that it fails at waits for the next time, with those of the same reel or make behind it.
   */
  send(): Promise<void> {
    this.#sending ??= this.#sendAll().finally(() => {
      this.#sending = null
    })
    return this.#sending
  }

  /** Sends one again that was not taken; one that was shown to surprise, to be taken as it is. */
  async again({ asks, ...one }: WaitingWeighing): Promise<void> {
    const db = await browserStore()
    const told = asks?.surprise === undefined ? one.told : { ...one.told, accept: true }
    await db.put('waiting', { ...one, told })
    // What is being sent does not have this one.
    await this.#sending
    await this.send()
  }

  /** Sends one to the ledger that is shown, though it was made for another. */
  async sendHere({ asks: _asks, ...one }: WaitingWeighing): Promise<void> {
    const db = await browserStore()
    await db.put('waiting', { ...one, ledger: ledgerShown() })
    await this.#sending
    await this.send()
  }

  async leaveOut({ id }: WaitingWeighing): Promise<void> {
    const db = await browserStore()
    await db.delete('waiting', id)
    await this.#changed()
  }

  async #sendAll(): Promise<void> {
    await this.look()
    if (this.#list.length === 0) return
    /** Reels and makes of which one waits that the server failed at: their order is kept. */
    const held = new Set<string>()
    try {
      for (const one of this.#list) {
        const isHeld = weighedIn(one).some((each) => held.has(each))
        if (isHeld || one.asks !== undefined || one.ledger !== ledgerShown()) continue
        try {
          // oxlint-disable-next-line no-await-in-loop -- in the order in which they were made
          await this.#sendOne(one)
        } catch (error) {
          if (error instanceof OutOfTouch) break
          if (!failsAtOne(error)) throw error
          for (const each of weighedIn(one)) held.add(each)
        }
      }
    } finally {
      await this.#changed()
    }
  }

  async #sendOne(one: WaitingWeighing): Promise<void> {
    const db = await browserStore()
    try {
      const { recorded, surprise } = await this.#api.weigh(one.told)
      if (recorded || surprise === null || !surprise.surprising) {
        await db.delete('waiting', one.id)
        return
      }
      await db.put('waiting', { ...one, asks: { message: '', surprise } })
    } catch (error) {
      if (!(error instanceof ProblemFault) || isForNow(error)) throw error
      await db.put('waiting', { ...one, asks: { message: error.message } })
    }
  }

  /** Reads what waits. */
  async look(): Promise<void> {
    const db = await browserStore()
    const all = await db.getAll('waiting')
    this.#list = all.toSorted((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)))
    for (const listener of this.#listeners) listener()
  }

  async #changed(): Promise<void> {
    await this.look()
    this.#others.postMessage(null)
  }
}
