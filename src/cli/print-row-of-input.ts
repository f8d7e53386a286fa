import type { PrintRowJson } from '../contract/index.ts'
import { printRowOf } from '../ledger/index.ts'
import type { PrintOfFile } from '../print/index.ts'
import type { Input } from './read-input.ts'

/** What the ledger knows a print by: the hash of its file, and which member of a zip it is. */
export const printIdOf = (
  { sha256 }: Pick<Input, 'sha256'>,
  { name }: Pick<PrintOfFile, 'name'>,
): string => (name === null ? sha256 : `${sha256}/${name}`)

/**
 * A print as the ledger keeps it.
 *
 * @param now - moment of the reading, ms since 1970
 */
export const printRowOfInput = (input: Input, print: PrintOfFile, now: number): PrintRowJson => {
  const { file, bytes } = input
  return printRowOf(print.reading, {
    id: printIdOf(input, print),
    file: file === '-' ? 'standard input' : (file.split(/[/\\]/).at(-1) ?? file),
    bytes,
    changed_at: new Date(now).toISOString(),
  })
}
