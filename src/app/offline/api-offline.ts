import type { Api } from '../api/api.ts'
import { OutOfTouch } from '../api/problem-fault.ts'
import { browserStore } from './browser-store.ts'
import type { WaitingWeighings } from './waiting-weighings.ts'

/**
 * The same Api where the server may be out of touch: weighings wait, and what the shelf was when it
 * was last looked at is shown. Everything else is refused as it was.
 */
export function apiOffline(api: Api, waiting: WaitingWeighings): Api {
  return {
    ...api,
    shelf: (all = false) => last(waiting, `shelf ${all}`, () => api.shelf(all)),
    rows: (kind) => last(waiting, `rows ${kind}`, () => api.rows(kind)),
    weigh: async (told) => {
      try {
        return await api.weigh(told)
      } catch (error) {
        if (!(error instanceof OutOfTouch) || told.test === true) throw error
        return waiting.keep(told)
      }
    },
    logOut: async () => {
      const session = await api.logOut()
      await (await browserStore()).clear('answers')
      return session
    },
  }
}

/** What was answered last under a key, where nothing can be asked now. */
const last = async <T>(
  waiting: WaitingWeighings,
  what: string,
  ask: () => Promise<T>,
): Promise<T> => {
  const key = `${waiting.ledger()} ${what}`
  try {
    const answer = await ask()
    await (await browserStore()).put('answers', answer, key)
    return answer
  } catch (error) {
    if (!(error instanceof OutOfTouch)) throw error
    const known = await (await browserStore()).get('answers', key)
    if (known === undefined) throw error
    // Only what `ask` answered is kept under its key.
    return known as T
  }
}
