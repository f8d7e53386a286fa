import { keep, kept } from '../look/kept.ts'

/** Id of the ledger that the server was last known to show; empty before the first word from it. */
export const ledgerShown = (): string => kept('ledger') ?? ''

/** Says which ledger the server shows. */
export const showLedger = (ledger: string): void => keep('ledger', ledger)
