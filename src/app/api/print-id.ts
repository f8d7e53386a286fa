import type { PrintToCheck } from './api.ts'

/** By what the ledger knows a print: the hash of its file, and which member of it. */
export const printId = ({ sha256, member }: Pick<PrintToCheck, 'sha256' | 'member'>): string =>
  member === null ? sha256 : `${sha256}/${member}`
