/**
 * Writes src/picture/lettering.ts from the Hershey glyphs: node scripts/build-lettering.ts FILE, where
 * FILE is hersheytext.json of the npm package hersheytext, version 2.0.0. Run once; the glyphs are of 1967.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

interface Glyph {
  /** Lines in the manner of an SVG path. */
  readonly d: string
  /** Half of the way to the next letter. */
  readonly o: number
}

const { futural } = JSON.parse(readFileSync(process.argv[2]!, 'utf8')) as {
  readonly futural: { readonly chars: readonly Glyph[] }
}
/** The last is no letter but a mark for what is missing. */
const glyphs = futural.chars.slice(0, 94).map(({ d, o }) => `${2 * o} ${d}`)
const page = fileURLToPath(new URL('../src/picture/lettering.ts', import.meta.url))
writeFileSync(
  page,
  `// Written by scripts/build-lettering.ts. Do not edit.

/**
 * Letters of single strokes, "!" to "~": how far it is to the next letter, then lines in the manner of an
 * SVG path. Capitals stand from 1 down to the line at 22.
 *
 * @see A. V. Hershey, Calligraphy for Computers, NWL Report 2101 (1967): the simplex roman letters,
 *   as in the npm package hersheytext 2.0.0 (MIT)
 */
export const lettering: readonly string[] = ${JSON.stringify(glyphs, null, 2)}
`,
)
