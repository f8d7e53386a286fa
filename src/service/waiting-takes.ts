import type { WaitingRowJson } from '../contract/index.ts'
import type { PrintTime } from '../print/index.ts'
import { type Reached, reachedAt } from '../verdict/index.ts'
import { rowsOf } from './find-row.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import type { ShelfView } from './shelf-view.ts'

/**
 * How long one copy of a waiting print takes, as its moves are planned: on the slowest of the printers in
 * use that may do it, each by its own pace.
 *
 * @param time - of the print as it was kept; null where it was kept without its times
 * @returns null where nobody can tell
 */
export const waitingTakes = (
  { rows, standing }: Pick<ShelfView, 'rows' | 'standing'>,
  { printers }: Pick<WaitingRowJson, 'printers'>,
  time: PrintTime | null,
): Reached | null => {
  if (time === null) return null
  const may = rowsOf(rows, 'printer').filter(
    ({ id, retired }) => retired !== true && (printers?.includes(id) ?? true),
  )
  const ids = may.length === 0 ? [undefined] : may.map(({ id }) => id)
  const each = ids.map((id) => reachedAt({ time, pace: paceOfPrinter({ standing }, id) }))
  return each.reduce((slowest, one) => (one.late_s > slowest.late_s ? one : slowest))
}
