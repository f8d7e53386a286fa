import { accept, type Outcome, refuse } from '../units/index.ts'

/** Cells of a table; the first row has the headings. */
export interface CsvCells {
  readonly header: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

const delimiters = [',', ';', '\t', '|'] as const

/** The mark that stands most often in the first line, where none is given. */
const delimiterOf = (text: string): string => {
  const first = text.slice(0, Math.max(0, `${text}\n`.indexOf('\n')))
  const count = (mark: string): number => first.split(mark).length
  return delimiters.reduce((most, each) => (count(each) > count(most) ? each : most))
}

/**
 * The cells of a CSV table, rows of any length.
 *
 * @param delimiter - what stands between cells, `\t` for a tab; seen by itself unless given
 * @returns `no_table` with the line
 */
export const readCsv = async (text: string, delimiter?: string): Promise<Outcome<CsvCells>> => {
  // Most commands read no table.
  const { parse } = await import('csv-parse/sync')
  try {
    const [header = [], ...rows] = parse(text, {
      bom: true,
      delimiter: delimiter === undefined ? delimiterOf(text) : delimiter.replace('\\t', '\t'),
      relax_column_count: true,
    })
    return accept({ header, rows })
  } catch (error) {
    if (!(error instanceof Error)) throw error
    const line = 'lines' in error && typeof error.lines === 'number' ? error.lines : undefined
    return refuse({
      code: 'no_table',
      message: `This is neither a ledger's lines nor a table that can be read: ${error.message}. Save it as CSV again, or say what stands between its cells.`,
      ...(line !== undefined && { line }),
    })
  }
}
