import type { LedgerTable } from '../ledger/index.ts'

/** A table as CSV, headings first. @see RFC 4180 */
export const tableCsv = async ({ columns, rows }: LedgerTable): Promise<string> => {
  // Most commands write no table.
  const { stringify } = await import('csv-stringify/sync')
  return stringify([columns, ...rows] as Parameters<typeof stringify>[0])
}
