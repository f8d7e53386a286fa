import type { Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { type ShelfView, shelfView } from './shelf-view.ts'

/** How often others may come first before one gives up. */
const tries = 8

/**
 * Runs a use case over the shelf as it is. Where others wrote between its look and its append, it is
 * run anew over the shelf as it is by then: what was tested, found or free before may not be so now.
 *
 * @param work - looks at the shelf, and appends by `record` at its end or not at all
 * @returns as `work`; `changed_meanwhile` where others came first again and again
 */
export const overShelf = async <T>(
  { store }: HandedIn,
  work: (view: ShelfView) => Promise<Outcome<T>>,
): Promise<Outcome<T>> => {
  for (let count = 1; ; count++) {
    // oxlint-disable-next-line no-await-in-loop -- each time the shelf is another
    const view = await shelfView(store)
    if (!view.ok) return view
    // oxlint-disable-next-line no-await-in-loop -- as above
    const outcome = await work(view.value)
    if (outcome.ok || outcome.refusal.code !== 'changed_meanwhile' || count === tries) {
      return outcome
    }
  }
}
