import type { CatalogueRowJson, WaitingRowJson } from '../contract/index.ts'
import type { Outcome } from '../units/index.ts'
import { findRow, rowsOf } from './find-row.ts'
import { isWaiting } from './slate-order.ts'

/**
 * The waiting print a person means, by name or id: of those on the slate, else of those that were.
 *
 * @returns as `findRow`
 */
export const findWaiting = (
  rows: readonly CatalogueRowJson[],
  typed: string,
): Outcome<WaitingRowJson> => {
  const on = findRow(rowsOf(rows, 'waiting').filter(isWaiting), 'waiting', typed)
  if (on.ok || on.refusal.code === 'name_ambiguous') return on
  const any = findRow(rows, 'waiting', typed)
  return any.ok ? any : on
}
