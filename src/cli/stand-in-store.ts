import {
  isCatalogueRow,
  isFact,
  isPrintRow,
  type LedgerRecord,
  ledgerRecord,
} from '../contract/index.ts'
import type { Store } from '../store/index.ts'
import { accept } from '../units/index.ts'

/** A store in memory, until the store layer is there. */
export const standInStore = (
  first: readonly LedgerRecord[] = [],
  save: (all: readonly LedgerRecord[]) => Promise<void> = async () => undefined,
): Store => {
  let all: LedgerRecord[] = [...first]
  let revision = all.length
  return {
    append: async (records) => {
      for (const record of records) {
        const one = ledgerRecord.parse(record)
        if (!isFact(one)) all = all.filter((other) => other.id !== one.id)
        all.push(one)
      }
      revision += records.length
      await save(all)
      return accept({ written: records.length, same: 0, older: 0 })
    },
    catalogue: async () => all.filter(isCatalogueRow),
    facts: async (of) =>
      all.filter(isFact).filter((fact) => !of?.reel || ('reel' in fact && fact.reel === of.reel)),
    fact: async (id) => all.filter(isFact).find((fact) => fact.id === id),
    print: async (id) => all.filter(isPrintRow).find((row) => row.id === id),
    prints: async () =>
      all
        .filter(isPrintRow)
        .map(({ id, changed_at, file, bytes }) => ({ id, changed_at, file, bytes })),
    async *records() {
      yield* all
    },
    revision: async () => revision,
    close: async () => undefined,
  }
}
