import type { LedgerRecord } from '../contract/index.ts'
import type { Appended, AppendGuard, Store } from '../store/index.ts'
import { type Outcome, refuse } from '../units/index.ts'
import { reelClash } from './reel-clash.ts'

/** How often others may come first before one gives up. */
const tries = 8

/**
 * Takes records of another ledger over: all or none, in one transaction. What is there already is
 * passed over, so it may be done again.
 *
 * @param rehearsal - an empty store in which to try it, where nothing is to be written: what is there
 *   is put into it first
 * @param guard - of a write; a rehearsal needs none
 * @returns `reel_id_clash`, and as `Store.append`
 */
export const importRecords = async (
  store: Store,
  records: readonly LedgerRecord[],
  rehearsal?: Store,
  guard?: AppendGuard,
): Promise<Outcome<Appended>> => {
  const opens = records.some(({ kind }) => kind === 'opened')
  for (let count = 1; ; count++) {
    // oxlint-disable-next-line no-await-in-loop -- each time the ledger is another
    const ifRevision = guard?.ifRevision ?? (await store.revision())
    // oxlint-disable-next-line no-await-in-loop -- as above
    const clash = opens && reelClash(await store.catalogue(), await store.facts(), records)
    if (clash) return refuse(clash)
    if (rehearsal !== undefined) return rehearse(store, records, rehearsal)
    // oxlint-disable-next-line no-await-in-loop -- as above
    const written = await store.append(records, { ifRevision })
    const isLate = !written.ok && written.refusal.code === 'changed_meanwhile'
    if (!isLate || guard?.ifRevision !== undefined || count === tries) return written
  }
}

const rehearse = async (
  store: Store,
  records: readonly LedgerRecord[],
  rehearsal: Store,
): Promise<Outcome<Appended>> => {
  const there: LedgerRecord[] = []
  for await (const record of store.records()) there.push(record)
  const copied = await rehearsal.append(there)
  return copied.ok ? rehearsal.append(records) : copied
}
