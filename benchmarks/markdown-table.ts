/** Column of a table: its heading, and whether figures stand in it. */
export interface Column {
  readonly heading: string
  readonly figures: boolean
}

const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`

/**
 * A Markdown table with its columns aligned in plain text too, as the formatter has it.
 *
 * @param rows - as many cells each as there are columns
 * @returns its lines
 */
export function markdownTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): readonly string[] {
  const widths = columns.map(({ heading }, at) =>
    Math.max(4, heading.length, ...rows.map((cells) => cells[at]?.length ?? 0)),
  )
  const fill = (cells: readonly string[]): string =>
    line(
      columns.map(({ figures }, at) => {
        const cell = cells[at] ?? ''
        return figures ? cell.padStart(widths[at] ?? 0) : cell.padEnd(widths[at] ?? 0)
      }),
    )
  const rule = columns.map(({ figures }, at) => {
    const width = widths[at] ?? 0
    return figures ? `${'-'.repeat(width - 1)}:` : '-'.repeat(width)
  })
  return [fill(columns.map(({ heading }) => heading)), line(rule), ...rows.map(fill)]
}
