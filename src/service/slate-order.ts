import type { CatalogueRowJson, WaitingRowJson } from '../contract/index.ts'
import { rowsOf } from './find-row.ts'

/** How many copies still wait; 0 for a row that is off the slate. */
export const copiesWaiting = ({
  copies,
  done = 0,
  off,
}: Pick<WaitingRowJson, 'copies' | 'done' | 'off'>): number =>
  off === true ? 0 : Math.max(0, copies - done)

/** Whether a row is on the slate. */
export const isWaiting = (row: WaitingRowJson): boolean => copiesWaiting(row) > 0

/** The most important first, then what is due first, then what came first. */
export const byUrgency = (a: WaitingRowJson, b: WaitingRowJson): number =>
  (b.importance ?? 0) - (a.importance ?? 0) ||
  (a.due ?? never).localeCompare(b.due ?? never) ||
  a.added_at.localeCompare(b.added_at) ||
  a.id.localeCompare(b.id)

/** After every moment that is told. */
const never = '9999'

/** What waits, the most urgent first. */
export const slateOf = (rows: readonly CatalogueRowJson[]): readonly WaitingRowJson[] =>
  rowsOf(rows, 'waiting').filter(isWaiting).toSorted(byUrgency)

/** All that ever waited, in the order in which they came. */
export const everWaiting = (rows: readonly CatalogueRowJson[]): readonly WaitingRowJson[] =>
  rowsOf(rows, 'waiting').toSorted((a, b) => a.added_at.localeCompare(b.added_at))
