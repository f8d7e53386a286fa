import type { CatalogueRowJson, FactJson, LedgerRecord, PrintRowJson } from '../contract/index.ts'
import type { Outcome } from '../units/index.ts'

/** What became of records that were appended. */
export interface Appended {
  /** New facts, new rows and rows that took the place of older ones. */
  readonly written: number
  /** Facts and rows that were there already, the same in every key. */
  readonly same: number
  /** Rows older than what the ledger has; left out. */
  readonly older: number
}

/** A kept print without its curves. */
export interface PrintHeading {
  readonly id: string
  readonly changed_at: string
  readonly file: string
  readonly bytes: number
}

/**
 * The ledger and its catalogue, kept. Facts are only ever appended; of a catalogue row or print the
 * one changed last holds. Several processes may have the same store open.
 */
export interface Store {
  /**
   * Writes all records or none, in one transaction that is safely on disk when this returns.
   * A fact that is there already, the same in every key, is passed over, so appending twice does no
   * harm. Records may refer to others of the same call, in any order.
   *
   * @param records - valid by `ledgerRecord`
   * @returns refusals `id_taken` (another fact has this id), `unknown_reference` (a reel, row, print
   *   or fact that nobody knows), `disk_full`, `read_only`, `busy` (somebody else wrote for too long)
   */
  append(records: readonly LedgerRecord[]): Promise<Outcome<Appended>>
  catalogue(): Promise<readonly CatalogueRowJson[]>
  /** Facts in the order written down; of one reel if given. */
  facts(of?: { readonly reel?: string }): Promise<readonly FactJson[]>
  fact(id: string): Promise<FactJson | undefined>
  print(id: string): Promise<PrintRowJson | undefined>
  /** Latest first. */
  prints(): Promise<readonly PrintHeading[]>
  /** Everything, as it stood at one moment: catalogue rows, prints, then facts as written down. */
  records(): AsyncIterable<LedgerRecord>
  /** Grows with whatever is written by anybody: a view made at one revision holds while it stays. */
  revision(): Promise<number>
  close(): Promise<void>
}
