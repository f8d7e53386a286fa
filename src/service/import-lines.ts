import { type ImportJson, isFact, type LedgerRecord } from '../contract/index.ts'
import { LedgerReader } from '../ledger/index.ts'
import { accept, type Outcome, type Refusal } from '../units/index.ts'

/** The lines of another ledger. */
export interface LinesRead {
  readonly records: readonly LedgerRecord[]
  /** By the id of a fact. */
  readonly lineOf: ReadonlyMap<string, number>
  readonly skipped: ImportJson['skipped']
}

/** The same without the line in front, where that is told beside it. */
export const withoutLine = ({ message }: Pick<Refusal, 'message'>): string =>
  message.replace(/^Line \d+: /, '')

/**
 * Reads another ledger.
 *
 * @param skipBad - lines that are no record are left out; a file that is no ledger, or a newer one, is refused
 * @returns refusals as `LedgerReader`
 */
export const readLedgerLines = (lines: readonly string[], skipBad: boolean): Outcome<LinesRead> => {
  const reader = new LedgerReader()
  const records: LedgerRecord[] = []
  const lineOf = new Map<string, number>()
  const skipped: ImportJson['skipped'][number][] = []
  for (const line of lines) {
    const read = reader.read(line)
    if (read.ok) {
      if (read.value !== null) {
        records.push(read.value)
        if (isFact(read.value)) lineOf.set(read.value.id, reader.lines)
      }
      continue
    }
    const { code, line: row = reader.lines } = read.refusal
    if (!skipBad || code !== 'ledger_record') return read
    skipped.push({ row, column: null, code, message: withoutLine(read.refusal) })
  }
  const end = reader.end()
  return end.ok ? accept({ records, lineOf, skipped }) : end
}
