import { sheetWidth } from './wrap.ts'

/**
 * Columns of text, each as wide as its longest cell. Where the sheet is too narrow the widest column
 * of words is cut short, with … at the end; a figure never is, for it would be another.
 *
 * @param right - columns of figures, which stand at the right
 */
export const textTable = (
  head: readonly string[],
  rows: readonly (readonly string[])[],
  {
    width = sheetWidth,
    right = [],
  }: { readonly width?: number; readonly right?: readonly number[] } = {},
): string => {
  const all = [head, ...rows]
  const widths = head.map((_, column) => Math.max(...all.map((row) => row[column]?.length ?? 0)))
  const gaps = 2 * head.length
  let over = widths.reduce((sum, each) => sum + each, gaps) - width
  const isWords = head.map(
    (_, column) =>
      !right.includes(column) && !rows.some((row) => row[column]?.includes('±') === true),
  )
  while (over > 0) {
    const ofWords = widths.map((each, column) => (isWords[column] === true ? each : 0))
    const widest = ofWords.indexOf(Math.max(...ofWords))
    const cut = Math.min(over, Math.max(1, widths[widest]! - narrowest))
    if (ofWords[widest]! <= narrowest) break
    widths[widest]! -= cut
    over -= cut
  }
  const line = (row: readonly string[]): string =>
    `  ${row.map((cell, column) => fit(cell, widths[column]!, right.includes(column))).join('  ')}`.trimEnd()
  return `${all.map(line).join('\n')}\n`
}

const narrowest = 8

const fit = (cell: string, width: number, atRight: boolean): string => {
  if (cell.length > width) return `${cell.slice(0, width - 1)}…`
  return atRight ? cell.padStart(width) : cell.padEnd(width)
}
