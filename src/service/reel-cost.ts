import type { PriceJson } from '../contract/index.ts'
import type { Measured } from '../units/index.ts'
import { measured } from '../units/index.ts'
import { reelLife } from './reel-life.ts'
import type { ShelfView } from './shelf-view.ts'

/** What a reel's filament costs, as much of it as is gone and as is left. */
export interface ReelCost {
  /** As it was paid for the reel as it came. */
  readonly paid: PriceJson
  /** In its currency; of facts that hold only. */
  readonly gone: Measured
  readonly left: Measured
}

/**
 * The price in proportion to the net: what is left costs price × net ÷ net as the reel came. Their
 * uncertainty is that of the net; what the net as it came is not sure of is mostly the same error and
 * adds no more than that.
 *
 * @param net - g, now or at the moment asked of
 * @returns undefined without a price, and for a reel that came with nothing
 */
export const reelCost = (view: ShelfView, reel: string, net: Measured): ReelCost | undefined => {
  const paid = view.cards.get(reel)?.price
  const came = reelLife(view, reel).marks.find(({ kind }) => kind === 'opened')?.net_g.value
  if (paid === undefined || came === undefined || !(came > 0)) return undefined
  const price = Number(paid.amount)
  const u = (price * net.u) / came
  const left = (price * net.value) / came
  return { paid, gone: measured(price - left, u), left: measured(left, u) }
}
