import type { z } from 'zod'
import { isFact, type LedgerRecord, ledgerRecord } from '../contract/index.ts'
import { accept, formatCount, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { inTheFuture } from './in-the-future.ts'
import { ledgerFormat } from './ledger-lines.ts'
import { sayIssue } from './say-issue.ts'

const header = 'a first line with "kind": "reelreckon-ledger"'

/**
 * Reads a ledger file line by line: the header, then a record a line. Lines may end in CR LF, begin
 * with a byte order mark and be blank. A header may come again, so that ledgers can be put one after
 * another. Nothing is remembered of a line that was refused: a caller may go on to the next.
 */
export class LedgerReader {
  #line = 0
  #headed = false

  /** How many lines were taken. */
  get lines(): number {
    return this.#line
  }

  /**
   * @param text - one line, with or without its line end
   * @returns a record, or null for a header or a blank line; refusals with `line`: `ledger_header`,
   *   `ledger_newer`, `ledger_no_json`, `ledger_record`
   */
  read(text: string): Outcome<LedgerRecord | null> {
    this.#line++
    const line = text.replace(/^\uFEFF/, '').trim()
    if (line === '') return accept(null)
    const parsed = parse(line)
    if (!parsed.ok) return this.#refused(parsed.refusal)
    if (isHeader(parsed.value)) {
      const checked = checkFormat(parsed.value['format'])
      if (!checked.ok) return this.#refused(checked.refusal)
      this.#headed = true
      return accept(null)
    }
    if (!this.#headed) {
      return this.#refused({
        code: 'ledger_header',
        message: `This is not a ledger of Reelreckon: before its records ${header} is missing.`,
        expected: header,
        received: line.slice(0, 60),
      })
    }
    const record = recordOf(parsed.value)
    if (!record.ok) return this.#refused(record.refusal)
    const early = isFact(record.value) ? inTheFuture(record.value) : undefined
    return early === undefined ? record : this.#refused({ ...early, code: 'ledger_record' })
  }

  /**
   * To be called after the last line.
   *
   * @returns the number of lines, or `ledger_header` where no header came
   */
  end(): Outcome<number> {
    if (this.#headed) return accept(this.#line)
    return refuse({
      code: 'ledger_header',
      message: `This is not a ledger of Reelreckon: ${header} is missing.`,
      expected: header,
      received: this.#line === 0 ? 'nothing' : formatCount(this.#line, 'blank line'),
    })
  }

  #refused(refusal: Refusal): { readonly ok: false; readonly refusal: Refusal } {
    const line = this.#line
    return refuse({ ...refusal, message: `Line ${line}: ${refusal.message}`, line })
  }
}

/**
 * All records of a ledger file, or what is wrong with the first line that can not be taken.
 *
 * @param lines - with or without line ends
 * @returns records in the order written; refusals as `LedgerReader`
 */
export const readLedger = (lines: Iterable<string>): Outcome<readonly LedgerRecord[]> => {
  const reader = new LedgerReader()
  const records: LedgerRecord[] = []
  for (const line of lines) {
    const read = reader.read(line)
    if (!read.ok) return read
    if (read.value !== null) records.push(read.value)
  }
  const end = reader.end()
  return end.ok ? accept(records) : end
}

/**
 * A value as a record, checked in every key.
 *
 * @returns `ledger_record` with one sentence for each thing that is wrong, three at most
 */
export const recordOf = (value: unknown): Outcome<LedgerRecord> => {
  // A schema would drop this name in silence: a record of names never takes it.
  if (hasProto(value)) {
    return refuse({
      code: 'ledger_record',
      message: 'There is no prior "__proto__".',
      received: '__proto__',
    })
  }
  const checked = ledgerRecord.safeParse(value)
  if (checked.success) return accept(checked.data)
  // One finding for each place is enough: an empty text is also none of the right shape.
  const places = new Map(checked.error.issues.toReversed().map((issue) => [placeOf(issue), issue]))
  const issues = checked.error.issues.filter((issue) => places.get(placeOf(issue)) === issue)
  const said = issues.map((issue) => sayIssue(issue, value))
  const words = said.slice(0, most).map((one) => one.words)
  const rest = said.length > most ? `; and ${said.length - most} more` : ''
  const text = `${words.join('; ')}${rest}.`
  const { expected, received } = said[0]!
  return refuse({
    code: 'ledger_record',
    message: text.charAt(0).toUpperCase() + text.slice(1),
    ...(expected !== undefined && { expected }),
    ...(received !== undefined && { received }),
  })
}

const hasProto = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  'priors' in value &&
  typeof value.priors === 'object' &&
  value.priors !== null &&
  Object.hasOwn(value.priors, '__proto__')

const most = 3

const placeOf = ({ path, code }: z.core.$ZodIssue): string =>
  JSON.stringify([...path.map(String), code === 'unrecognized_keys'])

type Header = Readonly<Record<string, unknown>>

const isHeader = (value: unknown): value is Header =>
  typeof value === 'object' &&
  value !== null &&
  'kind' in value &&
  value.kind === 'reelreckon-ledger'

const checkFormat = (format: unknown): Outcome<number> => {
  if (typeof format === 'number' && Number.isInteger(format) && format >= 1) {
    if (format <= ledgerFormat) return accept(format)
    return refuse({
      code: 'ledger_newer',
      message: `This ledger is of format ${format}, which is newer than the ${ledgerFormat} that this version reads. Use the version that wrote it, or a newer one.`,
      expected: `format ${ledgerFormat} or older`,
      received: `format ${format}`,
    })
  }
  return refuse({
    code: 'ledger_header',
    message: `The header names no format: expected a whole number from 1.`,
    expected: 'a whole number from 1',
    received: JSON.stringify(format) ?? 'nothing',
  })
}

const parse = (line: string): Outcome<unknown> => {
  try {
    return accept(JSON.parse(line) as unknown)
  } catch {
    return refuse({
      code: 'ledger_no_json',
      message: `No complete JSON: it begins ${JSON.stringify(line.slice(0, 40))} and ends ${JSON.stringify(line.slice(-20))}. Was the file cut short, or changed by hand?`,
      expected: 'one JSON object',
      received: line.slice(0, 60),
    })
  }
}
