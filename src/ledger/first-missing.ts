import { type FactJson, isFact, type LedgerRecord, referencesOf } from '../contract/index.ts'

/** A fact that names what is not there. */
export interface Missing {
  readonly fact: FactJson
  readonly what: 'reel' | 'make' | 'printer' | 'scale'
  readonly id: string
}

/**
 * The first fact of a ledger that could not be reckoned with, since what it names is not among the records:
 * a reel that was opened, a make, a printer, a scale.
 */
export const firstMissing = (records: readonly LedgerRecord[]): Missing | undefined => {
  const known: Record<Missing['what'], Set<string>> = {
    reel: new Set(),
    make: new Set(),
    printer: new Set(),
    scale: new Set(),
  }
  for (const record of records) {
    if (record.kind === 'opened') known.reel.add(record.reel)
    else if (record.kind === 'make' || record.kind === 'printer' || record.kind === 'scale') {
      known[record.kind].add(record.id)
    }
  }
  for (const record of records) {
    if (!isFact(record)) continue
    const references = referencesOf(record)
    for (const what of ['reel', 'make', 'printer', 'scale'] as const) {
      const id = references[what]
      if (id !== undefined && !known[what].has(id)) return { fact: record, what, id }
    }
  }
  return undefined
}
