import type { CatalogueRowJson, PrinterRowJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findRow, rowsOf } from './find-row.ts'

/**
 * The printer that is meant: by name or id, or the only one in use.
 *
 * @returns `printer_needed`, and as `findRow`
 */
export const choosePrinter = (
  rows: readonly CatalogueRowJson[],
  typed: string | undefined,
): Outcome<PrinterRowJson> => {
  if (typed !== undefined) return findRow(rows, 'printer', typed)
  const inUse = rowsOf(rows, 'printer').filter(({ retired }) => retired !== true)
  const [one, ...more] = inUse
  if (one !== undefined && more.length === 0) return accept(one)
  return refuse({
    code: 'printer_needed',
    ...(one !== undefined && { expected: inUse.map(({ name }) => name).join(', ') }),
    message:
      one === undefined
        ? 'No printer has been set up. Set it up once, and it is taken from then on.'
        : `There are several printers: say which one fed it.${inUse.map(({ id, name }) => `\n  ${id}  ${name}`).join('')}`,
  })
}
