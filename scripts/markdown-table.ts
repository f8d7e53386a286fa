/** A Markdown table with its columns lined up, as the formatter of the project leaves it. */
export const markdownTable = (
  heads: readonly string[],
  rows: readonly (readonly string[])[],
): string => {
  const widths = heads.map((head, column) =>
    Math.max(3, head.length, ...rows.map((row) => row[column]?.length ?? 0)),
  )
  const line = (cells: readonly string[], fill: string): string =>
    `| ${widths.map((width, column) => (cells[column] ?? '').padEnd(width, fill)).join(' | ')} |`
  return [line(heads, ' '), line([], '-'), ...rows.map((row) => line(row, ' '))].join('\n')
}
