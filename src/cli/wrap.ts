/** Columns of the sheet. */
export const sheetWidth = 80

const bound = '\u00A0'
/** Spaces within a figure: before its unit, about ±, and between a name and its number. */
const inFigure = / (?=(?:±|%|(?:mm|m|g|min)\b))|(?<=[±<>]|\b(?:layer|z)) (?=\d)/g

/**
 * Breaks a text into lines at spaces, but never between a figure and its unit.
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
  for (const word of text.replaceAll(inFigure, bound).split(' ')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line)
      line = rest
      empty = true
    }
    line += empty ? word : ` ${word}`
    empty = false
  }
  return [...lines, line].join('\n').replaceAll(bound, ' ')
}
