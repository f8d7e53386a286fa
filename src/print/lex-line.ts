import type { FirmwareFamily } from './firmware-family.ts'

/** One command of a line: `G1`, `M221`, `T0`, or a name with its parameters. */
export interface Command {
  /** `G`, `M`, `T`, or '' for a line that begins with something else. */
  readonly letter: string
  /** The number; NaN when there is none (`Tx`). Not whole for a sub-code (`G29.1`). */
  readonly code: number
  /** Words by capital letter; null for a letter without a number. */
  readonly words: ReadonlyMap<string, Word>
  /** The rest of the line after the command word, comment cut off, as written. */
  readonly rest: string
  /** The first word of the line as written (a name, when `letter` is ''). */
  readonly name: string
}

/** The number of a word, and what was odd about it. */
export interface Word {
  /** null when the letter stands without a number. */
  readonly value: number | null
  /** `1:2:3` lists, first value included; undefined elsewhere. */
  readonly list?: readonly number[]
  /** A value in braces, known to the machine alone. */
  readonly expression?: boolean
  readonly doubledPoint?: boolean
}

/** How a family cuts a line into words; the only differences in lexing that touch the draw. */
export type Lexing = Pick<
  FirmwareFamily,
  'exponents' | 'bracketEndsLine' | 'severalCommands' | 'duplicateWord'
>

const textCodes = new Set([
  16, 23, 28, 30, 32, 98, 117, 118, 486, 550, 551, 552, 553, 587, 701, 702, 928, 810, 811, 812, 813,
  814, 815, 816, 817, 818, 819,
])

/** M codes whose tail is a text, never looked into. */
export const carriesText = (code: number): boolean => code >= 1000 || textCodes.has(code)

const head = /^[ \t]*(?:[Nn][ \t]*\d+[ \t]*)?/
const commandWord = /^([GMT])[ \t]*(\d+(?:\.\d+)?)?/i
const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)`
const plainWord = new RegExp(
  String.raw`([A-Z])[ \t]*(?:(\{)|(${number})((?::${number})+)?(\.[\d.]*)?)?`,
  'gi',
)
const exponentWord = new RegExp(
  String.raw`([A-Z])[ \t]*(?:(\{)|((?:${number})(?:(?<=\d)E[+-]?\d+)?)((?::${number})+)?(\.[\d.]*)?)?`,
  'gi',
)

/**
 * Cuts one line into commands as a family does. Regular expressions are linear here: every
 * alternative begins with another character.
 *
 * @param line - without its end; N word and comment may be on it
 * @see docs/method/draw.md, "Lines"
 */
export function lexLine(line: string, lexing: Lexing): Command[] {
  let text = line.slice((head.exec(line) as RegExpExecArray)[0].length)
  const first = commandWord.exec(text)
  if (first === null || isName(text, first)) return [nameCommand(cutComment(text))]
  const letter = (first[1] as string).toUpperCase()
  const code = Number(first[2] ?? Number.NaN)
  if (letter === 'M' && carriesText(code)) {
    return [{ letter, code, words: new Map(), rest: text.slice(first[0].length), name: first[0] }]
  }
  text = cutComment(text)
  if (lexing.bracketEndsLine) text = before(text, '(')
  return cutCommands(text, lexing)
}

/** `MEASURE`, `G_HOME`, `TURN_OFF` are names; `T?` and `Tx` are tool words without a number. */
function isName(text: string, first: RegExpExecArray): boolean {
  if (first[2] !== undefined) return false
  return first[1]?.toUpperCase() !== 'T' || /^T[a-z_]{2}/i.test(text)
}

function cutComment(text: string): string {
  return before(before(text, ';'), '*')
}

function before(text: string, mark: string): string {
  const at = text.indexOf(mark)
  return at < 0 ? text : text.slice(0, at)
}

function nameCommand(text: string): Command {
  const name = /^\S*/.exec(text)?.[0] ?? ''
  return { letter: '', code: Number.NaN, words: new Map(), rest: text.slice(name.length), name }
}

function cutCommands(text: string, lexing: Lexing): Command[] {
  const commands: Command[] = []
  let letter = ''
  let code = Number.NaN
  let name = ''
  let words = new Map<string, Word>()
  let from = 0
  const close = (to: number): void => {
    if (letter !== '') commands.push({ letter, code, words, rest: text.slice(from, to), name })
  }
  for (const match of text.matchAll(lexing.exponents ? exponentWord : plainWord)) {
    const key = (match[1] as string).toUpperCase()
    const value = match[3] === undefined ? null : Number(match[3])
    const opens = key === 'G' || key === 'M' || (key === 'T' && letter === '')
    if (opens && (letter === '' || value !== null)) {
      if (lexing.severalCommands) {
        close(match.index)
        words = new Map()
      }
      letter = key
      // A sub-code's own points belong to the code: 29.1 is not 29.
      code = value ?? Number.NaN
      name = match[0].trim()
      from = match.index + match[0].length
      continue
    }
    if (lexing.duplicateWord === 'first' && words.has(key)) continue
    words.set(key, {
      value,
      ...(match[2] === undefined ? {} : { expression: true }),
      ...(match[4] === undefined ? {} : { list: listOf(match[3] as string, match[4]) }),
      ...(match[5] === undefined || match[5] === '.' ? {} : { doubledPoint: true }),
    })
  }
  close(text.length)
  return commands
}

const listOf = (first: string, rest: string): number[] => (first + rest).split(':').map(Number)
