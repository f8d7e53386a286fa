import type { LedgerRecord } from '../contract/index.ts'
import type { Appended, AppendGuard, Store } from '../store/index.ts'
import type { Outcome } from '../units/index.ts'

/**
 * Takes records of another ledger over: all or none, in one transaction.
 *
 * @param rehearsal - an empty store in which to try it, where nothing is to be written: what is there
 *   is put into it first
 * @param guard - of a write; a rehearsal needs none
 * @returns as `Store.append`
 */
export const importRecords = async (
  store: Store,
  records: readonly LedgerRecord[],
  rehearsal?: Store,
  guard?: AppendGuard,
): Promise<Outcome<Appended>> => {
  if (rehearsal === undefined) return store.append(records, guard)
  const there: LedgerRecord[] = []
  for await (const record of store.records()) there.push(record)
  const copied = await rehearsal.append(there)
  return copied.ok ? rehearsal.append(records) : copied
}
