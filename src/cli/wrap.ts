/** Columns of the sheet. */
export const sheetWidth = 80

/**
 * Breaks a text into lines at spaces.
 *
 * @param first - what stands before the first line
 * @param rest - what stands before the others; as many spaces as `first` unless given
 */
export const wrap = (
  text: string,
  first = '',
  rest: string = ' '.repeat(first.length),
  width: number = sheetWidth,
): string => {
  const lines: string[] = []
  let line = first
  let empty = true
  for (const word of text.split(' ')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line)
      line = rest
      empty = true
    }
    line += empty ? word : ` ${word}`
    empty = false
  }
  return [...lines, line].join('\n')
}
