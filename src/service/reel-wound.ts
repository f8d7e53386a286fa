import type { ReelWoundJson } from '../contract/index.ts'
import { densityOfReel } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** What a drawing of a reel to scale needs beside its net, on the wire. */
export const reelWound = (
  { estimate }: Pick<ShelfView, 'estimate'>,
  { id, make, opened, facts }: ReelCard,
): ReelWoundJson => {
  const measured = facts.findLast(
    ({ fact, voided }) =>
      voided === undefined && fact.kind === 'measured' && fact.winding !== undefined,
  )?.fact
  const { winding } = measured?.kind === 'measured' ? measured : {}
  return {
    label_g: opened.label_net_g ?? make?.label_net_g ?? null,
    density_g_per_cm3: estimate.book.reelAt.has(id) ? densityOfReel(estimate, id) : null,
    measured: winding
      ? {
          hub_mm: winding.hub_mm.value,
          outer_mm: winding.outer_mm.value,
          width_mm: winding.width_mm.value,
        }
      : null,
  }
}
