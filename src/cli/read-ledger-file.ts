import { type LedgerRecord, whatIsMissing } from '../contract/index.ts'
import { firstMissing, LedgerReader, type Missing } from '../ledger/index.ts'
import type { Refusal } from '../units/index.ts'
import { cancelling } from './cancelling.ts'
import { refusedFile } from './fault.ts'
import { readLines } from './read-lines.ts'

/**
 * The records of a ledger file or, for `-`, of standard input.
 *
 * @throws Fault: unreadable input, with the line that can not be taken; a fact that names a reel, make,
 *   printer or scale which the file does not have
 */
export const readLedgerFile = (file: string): Promise<readonly LedgerRecord[]> =>
  cancelling(async (signal) => {
    const reader = new LedgerReader()
    const records: LedgerRecord[] = []
    for await (const lines of readLines(file, signal)) {
      for (const line of lines) {
        const read = reader.read(line)
        if (!read.ok) throw refusedFile(file, withoutLine(read.refusal))
        if (read.value !== null) records.push(read.value)
      }
    }
    const end = reader.end()
    if (!end.ok) throw refusedFile(file, end.refusal)
    const missing = firstMissing(records)
    if (missing !== undefined) throw refusedFile(file, refusalOf(missing))
    return records
  })

const refusalOf = ({ fact, what, id }: Missing): Refusal => ({
  code: 'unknown_reference',
  message: `The fact ${fact.id} (${fact.kind}) names ${whatIsMissing[what]}: ${id}. Without it nobody can tell what the reels hold: give the file whole, as export writes it.`,
  expected: what,
  received: id,
})

/** The line is told before the sentence already. */
const withoutLine = <T extends { readonly message: string }>(refusal: T): T => ({
  ...refusal,
  message: refusal.message.replace(/^Line \d+: /, ''),
})
