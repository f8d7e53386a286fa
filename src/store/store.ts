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

/** What has to hold still when records are appended. */
export interface AppendGuard {
  /** Nobody has written since the store was at this revision. */
  readonly ifRevision?: number
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
 * one changed last holds, and of two changed at the same moment the one whose JSON comes later in the
 * alphabet, so that stores which were given the same records hold the same, whatever came first.
 * Several processes may have the same store open.
 *
 * Members that only read throw a `StoreFault`: `damaged`, `busy`, `disk_failed`.
 */
export interface Store {
  /**
   * Writes all records or none, in one transaction that is safely on disk when this returns.
   * A fact that is there already, the same in every key, is passed over, so appending twice does no
   * harm. Records may refer to others of the same call, in any order.
   *
   * @param records - valid by `ledgerRecord`
   * @param guard - asked inside the transaction, before anything is written
   * @returns refusals `id_taken` (another fact, or a row of another kind, has this id),
   *   `unknown_reference` (a reel nobody opened, or a row, print or fact that nobody knows; `expected`
   *   says which part, `received` the id), `disk_full`, `read_only`, `busy` (somebody else wrote for
   *   too long), `changed_meanwhile` (the guard does not hold), `damaged`, `disk_failed`
   * @throws DomainError `record_invalid`
   */
  append(records: readonly LedgerRecord[], guard?: AppendGuard): Promise<Outcome<Appended>>
  catalogue(): Promise<readonly CatalogueRowJson[]>
  /** Facts in the order written down; of one reel if given. */
  facts(of?: { readonly reel?: string }): Promise<readonly FactJson[]>
  fact(id: string): Promise<FactJson | undefined>
  print(id: string): Promise<PrintRowJson | undefined>
  printHeading(id: string): Promise<PrintHeading | undefined>
  /** Latest first. */
  prints(): Promise<readonly PrintHeading[]>
  /**
   * Everything, as it stood when the first was asked for: catalogue rows, prints, then facts as
   * written down. May be left off in the middle; who reads may write meanwhile.
   */
  records(): AsyncIterable<LedgerRecord>
  /**
   * Grows with every fact and row written by anybody: a view made at one revision holds while it stays.
   * A print that is only kept changes nothing that is believed, nor the revision.
   */
  revision(): Promise<number>
  /** Which ledger this is, 32 hexadecimal digits: they stay its own, in its backups as well. */
  ledgerId(): Promise<string>
  close(): Promise<void>
}
