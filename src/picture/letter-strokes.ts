import { lettering } from './lettering.ts'

/** Points of a line, px: x, y, x, y, … */
export type Polyline = readonly number[]

interface Letter {
  readonly advance: number
  readonly lines: readonly Polyline[]
}

/** The line that letters stand on, and the height of a capital, in the units of the glyphs. */
const baseline = 22
const capital = 21
/** A capital is so much of the size of its letters. */
const ofSize = 0.72
const space = 16

const readLetter = (glyph: string): Letter => {
  const [advance = '', ...rest] = glyph.split(' ')
  const lines: number[][] = []
  for (const word of rest) {
    if (word.startsWith('M')) lines.push([])
    lines.at(-1)?.push(...word.replace(/^[ML]/, '').split(',').map(Number))
  }
  return { advance: Number(advance), lines }
}

/** What is no ASCII and stands in figures. */
const others: ReadonlyMap<string, Letter> = new Map([
  ['±', readLetter('20 M4,9 L16,9 M10,3 L10,15 M4,21 L16,21')],
  ['·', readLetter('10 M4,13 L5,12 6,13 5,14 4,13')],
  ['–', readLetter('20 M4,13 L16,13')],
  ['²', readLetter('12 M3,3 L4,1 7,1 9,3 8,6 3,11 9,11')],
  ['³', readLetter('12 M3,1 L9,1 6,5 8,6 9,8 7,11 4,11 3,10')],
])
/** Stands for a letter that there is none of. */
const missing = readLetter('16 M3,1 L13,1 13,22 3,22 3,1')

/** Letters that were read: reading one takes longer than drawing it. */
const read = new Map<string, Letter>()

const letterOf = (character: string): Letter => {
  const known = read.get(character)
  if (known !== undefined) return known
  const glyph = lettering[(character.codePointAt(0) ?? 0) - 33]
  if (glyph !== undefined) {
    const letter = readLetter(glyph)
    read.set(character, letter)
    return letter
  }
  return character === ' ' || character === '\u00A0'
    ? { advance: space, lines: [] }
    : (others.get(character) ?? missing)
}

/** How wide words are in strokes, px. @param size - of the letters, px */
export const lettersWide = (text: string, size: number): number =>
  Array.from(text, letterOf).reduce((sum, { advance }) => sum + advance, 0) *
  ((size * ofSize) / capital)

/**
 * Words as single strokes, for where there is no typeface.
 *
 * @param size - of the letters, px, as for a typeface
 * @param y - of the line they stand on, px
 */
export const letterStrokes = (
  text: string,
  {
    x,
    y,
    size,
    anchor,
  }: {
    readonly x: number
    readonly y: number
    readonly size: number
    readonly anchor: 'start' | 'middle' | 'end'
  },
): readonly Polyline[] => {
  const scale = (size * ofSize) / capital
  const letters = Array.from(text, letterOf)
  const wide = lettersWide(text, size)
  let from = x - (anchor === 'start' ? 0 : anchor === 'middle' ? wide / 2 : wide)
  return letters.flatMap(({ advance, lines }) => {
    const at = from
    from += advance * scale
    return lines.map((line) =>
      line.map((place, k) => (k % 2 === 0 ? at + place * scale : y + (place - baseline) * scale)),
    )
  })
}
