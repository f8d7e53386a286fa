import type { SessionJson } from '../../contract/index.ts'
import type { Api } from '../api/api.ts'
import { asksToLogIn, OutOfTouch } from '../api/problem-fault.ts'
import { browserStore } from './browser-store.ts'
import { forgetShelf, timesForgotten } from './forget-shelf.ts'
import { ledgerShown, showLedger } from './ledger-shown.ts'
import type { WaitingWeighings } from './waiting-weighings.ts'

/**
 * The same Api where the server may be out of touch: weighings wait, as they do for a log-in, and what
 * the shelf was when it was last looked at is shown. Everything else is refused as it was. A browser
 * that keeps nothing only lacks this.
 */
export function apiOffline(api: Api, waiting: WaitingWeighings): Api {
  return {
    ...api,
    session: () => tellsLedger(api.session()),
    logIn: (phrase) => tellsLedger(api.logIn(phrase)),
    loadDemo: () => tellsLedger(api.loadDemo()),
    removeDemo: () => tellsLedger(api.removeDemo()),
    follow: (told) =>
      api.follow((touch) => {
        if (touch.inTouch) showLedger(touch.change.ledger_id)
        told(touch)
      }),
    shelf: (all = false) => last(`shelf ${all}`, () => api.shelf(all)),
    running: () => last('running', api.running),
    startRunning: outdating('running', api.startRunning),
    changeRunning: outdating('running', api.changeRunning),
    draw: outdating('running', api.draw),
    rows: (kind) => last(`rows ${kind}`, () => api.rows(kind)),
    weigh: async (told) => {
      try {
        return await api.weigh(told)
      } catch (error) {
        const mayWait = error instanceof OutOfTouch || asksToLogIn(error)
        if (!mayWait || told.test === true) throw error
        throw await waiting.keep(told, error).catch(() => error)
      }
    },
    logOut: async () => {
      const session = await api.logOut()
      await forgetShelf().catch(() => undefined)
      return session
    },
  }
}

/** What was answered last under a key, where nothing can be asked now. */
const last = async <T>(what: string, ask: () => Promise<T>): Promise<T> => {
  const key = `${ledgerShown()} ${what}`
  const before = timesForgotten()
  try {
    const answer = await ask()
    if (timesForgotten() === before) await keepAnswer(key, answer).catch(() => undefined)
    return answer
  } catch (error) {
    if (!(error instanceof OutOfTouch)) throw error
    const known = await keptAnswer(key).catch(() => undefined)
    if (known === undefined) throw error
    // Only what `ask` answered is kept under its key.
    return known as T
  }
}

/** What was answered last under a key is another once this is done: nothing is better than that. */
const outdating =
  <A extends readonly unknown[], R>(what: string, tell: (...told: A) => Promise<R>) =>
  async (...told: A): Promise<R> => {
    const answer = await tell(...told)
    await forgetAnswer(`${ledgerShown()} ${what}`).catch(() => undefined)
    return answer
  }

const forgetAnswer = async (key: string): Promise<void> =>
  (await browserStore()).delete('answers', key)

const keepAnswer = async (key: string, answer: unknown): Promise<unknown> =>
  (await browserStore()).put('answers', answer, key)

const keptAnswer = async (key: string): Promise<unknown> =>
  (await browserStore()).get('answers', key)

/** What is kept from then on is kept of the ledger that is told. */
const tellsLedger = async (telling: Promise<SessionJson>): Promise<SessionJson> => {
  const session = await telling
  if (session.ledger_id !== null) showLedger(session.ledger_id)
  return session
}
