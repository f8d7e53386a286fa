import type { PathShape } from './drawing.ts'
import type { Polyline } from './letter-strokes.ts'

/** A path as lines in px, closed ones ending where they begin. */
export const pathLines = ({ d }: Pick<PathShape, 'd'>): readonly Polyline[] => {
  const lines: number[][] = []
  let line: number[] = []
  let [x, y] = [0, 0]
  for (const [, letter = '', words = ''] of d.matchAll(/([MLHVZ])([^MLHVZ]*)/g)) {
    if (letter === 'Z') {
      line.push(line[0]!, line[1]!)
      continue
    }
    const numbers = words.trim().split(/[ ,]+/).map(Number)
    if (letter === 'H') x = numbers[0]!
    else if (letter === 'V') y = numbers[0]!
    else {
      x = numbers[0]!
      y = numbers[1]!
    }
    if (letter === 'M') {
      line = []
      lines.push(line)
    }
    line.push(x, y)
  }
  return lines
}

/** Lines cut into dashes, which go on around corners. */
export const dashes = (
  lines: readonly Polyline[],
  [long, gap]: readonly [number, number],
): readonly Polyline[] => lines.flatMap((line) => dashesOf(line, long, gap))

const dashesOf = (line: Polyline, long: number, gap: number): readonly Polyline[] => {
  const pieces: number[][] = []
  let piece: number[] | undefined = line.slice(0, 2)
  /** Of the dash or gap at hand. */
  let left = long
  for (let k = 2; k < line.length; k += 2) {
    let x = line[k - 2]!
    let y = line[k - 1]!
    let rest = Math.hypot(line[k]! - x, line[k + 1]! - y)
    const alongX = (line[k]! - x) / rest
    const alongY = (line[k + 1]! - y) / rest
    while (rest > left) {
      x += alongX * left
      y += alongY * left
      rest -= left
      if (piece === undefined) piece = [x, y]
      else {
        pieces.push([...piece, x, y])
        piece = undefined
      }
      left = piece === undefined ? gap : long
    }
    left -= rest
    piece?.push(line[k]!, line[k + 1]!)
  }
  if (piece !== undefined && piece.length > 2) pieces.push(piece)
  return pieces
}
