import type { WaitingRowJson } from '../contract/index.ts'
import type { Store } from '../store/index.ts'
import { type PrintDigest, printDigest } from './print-digest.ts'

interface Kept {
  readonly changedAt: string
  readonly digest: PrintDigest
}

/** Of prints that were asked for before, and are not now, so many are remembered. */
const mostOthers = 60

/** Digests are small, and unpacking a print's curves is not quick. */
const kept = new WeakMap<object, Map<string, Kept>>()

/** The prints that rows name, by id, as far as they were kept. */
export const printsOfSlate = async (
  store: Pick<Store, 'print' | 'prints'>,
  rows: readonly Pick<WaitingRowJson, 'print'>[],
): Promise<ReadonlyMap<string, PrintDigest>> => {
  const wanted = new Set(rows.map(({ print }) => print))
  const before = kept.get(store) ?? new Map<string, Kept>()
  const now = new Map<string, Kept>()
  let others = 0
  for (const { id, changed_at } of await store.prints()) {
    const known = before.get(id)
    if (known?.changedAt === changed_at && (wanted.has(id) || others++ < mostOthers)) {
      now.set(id, known)
    }
    if (!wanted.has(id) || now.has(id)) continue
    // oxlint-disable-next-line no-await-in-loop -- one at a time: each may be large
    const row = await store.print(id)
    if (row !== undefined) now.set(id, { changedAt: row.changed_at, digest: printDigest(row) })
  }
  kept.set(store, now)
  return new Map(
    [...now].flatMap(([id, { digest }]) => (wanted.has(id) ? [[id, digest] as const] : [])),
  )
}
