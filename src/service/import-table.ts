import { idLength, type LedgerRecord } from '../contract/index.ts'
import {
  type ReelMapping,
  reelsFromTable,
  type TableContext,
  type TableRow,
} from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId, newRowId } from './new-id.ts'

/** A table of reels as a person keeps one. */
export interface ReelTable {
  readonly header: readonly string[]
  readonly rows: readonly (readonly string[])[]
  readonly mapping: ReelMapping
  /** Id of the scale that its weighings were made on. */
  readonly scale?: string
  /** Of prices that name none. */
  readonly currency?: string
  /** Nothing was fed from any of these reels. */
  readonly unused?: boolean
  /** Rows that look like reels already there are other reels. */
  readonly alike?: boolean
}

/** What a table would become, and its records in one list. */
export interface TableRead {
  /** Of the store that it was held against: what is new by it may not be so later. */
  readonly revision: number
  readonly rows: readonly TableRow[]
  readonly records: readonly LedgerRecord[]
}

/**
 * What the reels of a table would become; nothing is written.
 *
 * @returns refusals as `reelsFromTable`
 */
export const readTable = async (
  handed: HandedIn,
  { header, rows, mapping, ...more }: ReelTable,
): Promise<Outcome<TableRead>> => {
  const revision = await handed.store.revision()
  const there = await handed.store.catalogue()
  const facts = await handed.store.facts()
  const taken = new Set([
    ...there.map(({ id }) => id),
    ...facts.flatMap((fact) => ('reel' in fact && fact.reel !== undefined ? [fact.reel] : [])),
  ])
  const context: TableContext = {
    rows: there,
    facts,
    now: new Date(handed.now()).toISOString(),
    newId: (length) => {
      if (length !== idLength.row) return newFactId(handed)
      const id = newRowId(handed, (each) => taken.has(each))
      taken.add(id)
      return id
    },
    ...(handed.by !== undefined && { by: handed.by }),
    ...more,
  }
  const read = reelsFromTable(header, rows, mapping, context)
  if (!read.ok) return read
  return accept({
    revision,
    rows: read.value,
    records: read.value.flatMap(({ outcome }) => (outcome.kind === 'new' ? outcome.records : [])),
  })
}
