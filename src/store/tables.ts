import type { ColumnType, Insertable } from 'kysely'

/** A whole number, which PostgreSQL may give back as text: `Number` it. */
type Whole = ColumnType<number | string, number, number>

/** The tables as Kysely sees them. */
export interface Tables {
  /** Migrations that were run, by name. */
  readonly migration: { readonly name: string }
  /** One row; raised first thing in every transaction that writes, which puts writers in line. */
  readonly revision: { readonly one: number; readonly value: Whole }
  /** One row: which ledger this is. */
  readonly ledger: { readonly one: number; readonly id: string }
  readonly catalogue_row: {
    readonly id: string
    readonly kind: string
    readonly changed_at: string
    readonly body: string
  }
  readonly print: PrintTable
  /** Reels that were opened. */
  readonly reel: { readonly id: string }
  readonly fact: FactTable
}

export interface PrintTable {
  /** As `plainText` gives it. */
  readonly id: string
  readonly changed_at: string
  /** As `plainText` gives it. */
  readonly file: string
  readonly bytes: Whole
  /** JSON, gzipped. */
  readonly body: Uint8Array
}

export interface FactTable {
  /** 1, 2, 3 … in the order written down, without gaps. */
  readonly sequence: Whole
  readonly id: string
  readonly kind: string
  readonly at: string
  readonly recorded_at: string
  readonly reel: string | null
  readonly make: string | null
  readonly printer: string | null
  readonly scale: string | null
  readonly person: string | null
  readonly print: string | null
  readonly voids: string | null
  readonly instead: string | null
  /** JSON, keys in the schema's order. */
  readonly body: string
}

export type NewFact = Insertable<FactTable>
