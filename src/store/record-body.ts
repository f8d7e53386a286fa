import { gunzipSync, gzipSync } from 'node:zlib'
import { type LedgerRecord, ledgerRecord } from '../contract/index.ts'
import { DomainError } from '../units/index.ts'

/** A record and its JSON, the same text for the same record. */
export interface Bodied<R extends LedgerRecord> {
  readonly record: R
  readonly body: string
}

/**
 * The JSON a record is kept as: keys in the schema's order, those of `priors` in the order of the
 * alphabet. Numbers come back bit by bit, but for -0, which becomes 0.
 *
 * @throws DomainError `record_invalid`
 */
export const bodyOf = (record: LedgerRecord): Bodied<LedgerRecord> => {
  const read = ledgerRecord.safeParse(record)
  if (!read.success) {
    const { path, message } = read.error.issues[0]!
    throw new DomainError(
      'record_invalid',
      `${record.kind} ${record.id}, ${path.join('.')}: ${message}`,
    )
  }
  const { data } = read
  if (data.kind !== 'priors') return { record: data, body: JSON.stringify(data) }
  const priors = Object.fromEntries(
    Object.entries(data.priors).toSorted(([one], [other]) => (one < other ? -1 : 1)),
  )
  return { record: data, body: JSON.stringify({ ...data, priors }) }
}

/** Prints are mostly columns of figures, and gzip shrinks them well: see benchmarks/store-speed.ts. */
export const packBody = (body: string): Uint8Array => gzipSync(body)

export const unpackBody = (packed: Uint8Array): string => gunzipSync(packed).toString('utf8')
