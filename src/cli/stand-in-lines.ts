import type { PrinterJudged } from '../service/index.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

/** Name of the printer that stands in for the one nobody named; null where none does. */
export const standInOf = (printer: PrinterJudged | undefined): string | null =>
  printer?.standsIn === true ? (printer.name ?? null) : null

/**
 * That a printer stands in for the one nobody named, after an empty line.
 *
 * @param standIns - its name for each print that was judged; null where none does
 */
export const standInLines = (standIns: readonly (string | null)[]): readonly string[] => {
  const names = [...new Set(standIns.filter((name) => name !== null))]
  if (names.length === 0) return []
  const each = names.length === 1 ? `${names[0]}, which` : `the one of them that`
  return [
    '',
    wrap(
      harmless(
        `No printer is named, and several are in use: reckoned for ${each} would take most. Name yours with --printer.`,
      ),
      '  !  ',
    ),
  ]
}

/** The same in brief, beside one print of many. */
export const onStandIn = (name: string): string => `on ${name}, which would take most`
