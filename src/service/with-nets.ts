import type { ImportJson } from '../contract/index.ts'
import type { Store } from '../store/index.ts'
import { reelNow } from './reel-now.ts'
import { shelfView } from './shelf-view.ts'
import type { ReelOfTable } from './table-told.ts'

/** What each reel holds by all that stands in a store. */
export const withNets = async (
  store: Store,
  reels: readonly ReelOfTable[],
): Promise<ImportJson['reels']> => {
  if (reels.length === 0) return []
  const view = await shelfView(store)
  return reels.map((reel) => {
    const isReckoned = view.ok && view.value.estimate.book.reelAt.has(reel.id)
    const net = isReckoned ? reelNow(view.value, reel.id).net : undefined
    return Object.assign({}, reel, {
      net_g: net === undefined ? null : { value: net.value, u: net.u },
    })
  })
}
