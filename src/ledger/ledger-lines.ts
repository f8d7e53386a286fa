import type { LedgerRecord } from '../contract/index.ts'

/** The format of ledger files that this version writes, and the newest that it reads. */
export const ledgerFormat = 1

/** The first line of a ledger file. */
export interface LedgerHeader {
  readonly kind: 'reelreckon-ledger'
  readonly format: number
  /** UTC, to the millisecond. */
  readonly written_at: string
}

/**
 * The first line of a ledger file, without its line end.
 *
 * @param now - milliseconds since 1970
 */
export const ledgerHeader = (now: number): string => {
  const header: LedgerHeader = {
    kind: 'reelreckon-ledger',
    format: ledgerFormat,
    written_at: new Date(now).toISOString(),
  }
  return JSON.stringify(header)
}

/**
 * A record as one line, without its line end.
 *
 * @param record - valid by `ledgerRecord`; what is not is written all the same, and refused when read
 */
export const ledgerLine = (record: LedgerRecord): string => JSON.stringify(record)
