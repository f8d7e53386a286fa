import type { WaitingRowJson } from '../contract/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { changedAfter } from './catalogue-rows.ts'
import { findWaiting } from './find-waiting.ts'
import type { ShelfView } from './shelf-view.ts'
import { copiesWaiting, slateOf } from './slate-order.ts'

/** What a print that was made does to the slate. */
export interface CopyDone {
  readonly rows: readonly WaitingRowJson[]
  readonly notes: readonly string[]
}

/**
 * Takes one copy of a print that was finished off the slate: of the row named, or the most urgent that
 * waits for the same print.
 *
 * @param waiting - name or id; null: none is meant
 * @returns as `findWaiting`
 */
export const copyDone = (
  view: Pick<ShelfView, 'rows'>,
  {
    print,
    waiting,
    now,
  }: {
    readonly print: string | undefined
    readonly waiting?: string | null | undefined
    readonly now: number
  },
): Outcome<CopyDone> => {
  const none = accept({ rows: [], notes: [] })
  if (waiting === null) return none
  const named = waiting === undefined ? undefined : findWaiting(view.rows, waiting)
  if (named?.ok === false) return named
  const row = named?.value ?? slateOf(view.rows).find((each) => each.print === print)
  if (row === undefined || copiesWaiting(row) === 0) return none
  const { done = 0 } = row
  const changed = { ...row, done: done + 1, changed_at: changedAfter(row, now) }
  const left = copiesWaiting(changed)
  const waits =
    left === 0
      ? `${row.name} is off the slate: all copies are done.`
      : `One copy of ${row.name} is off the slate; ${left} ${left === 1 ? 'waits' : 'wait'} still.`
  return accept({ rows: [changed], notes: [waits] })
}
