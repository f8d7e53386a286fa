import type { FirmwareFamily } from './firmware-family.ts'
import { isListedM, isLookedInto } from './listed-codes.ts'

/** One command of a line: `G1`, `M221`, `T0`, or a name with its parameters. */
export interface Command {
  /** `G`, `M`, `T`, or '' for a line that begins with something else. */
  readonly letter: string
  /** Not whole for a sub-code (`G29.1`); NaN for a name. */
  readonly code: number
  /** Words by capital letter. */
  readonly words: ReadonlyMap<string, Word>
  /** First word of the line as written: the name, when `letter` is ''. */
  readonly name: string
  /** The rest of a named line. */
  readonly rest: string
}

/** The number of a word, and what was odd about it. */
export interface Word {
  /** null when the letter stands without a number. */
  readonly value: number | null
  /** `1:2:3` lists, first value included; undefined elsewhere. */
  readonly list?: readonly number[]
  /** A value in braces, known to the machine alone. */
  readonly expression?: boolean
}

/** How a family cuts a line into words; the only differences in lexing that touch the draw. */
export type Lexing = Pick<
  FirmwareFamily,
  'exponents' | 'bracketEndsLine' | 'severalCommands' | 'duplicateWord'
>

/** The lexing of most families, and of everything that all families read alike. */
export const plainLexing: Lexing = {
  exponents: false,
  bracketEndsLine: false,
  severalCommands: false,
  duplicateWord: 'last',
}

const head = /^[ \t]*(?:[Nn][ \t]*\d+[ \t]*)?/
const firstWord = /^([GMT])[ \t]*(\d+\.?\d*|\.\d+)/i
const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)`
const wordWith = (value: string): RegExp =>
  new RegExp(String.raw`([A-Z])[ \t]*(?:(${value})((?::${value})+)?|(\{[^}]*\}?))?`, 'gi')
const plainWord = wordWith(number)
const exponentWord = wordWith(String.raw`${number}(?:(?<=\d)E[+-]?\d+)?`)

/**
 * Cuts one line into commands as a family does. Regular expressions are linear here: every
 * alternative begins with another character.
 *
 * @param line - without its end; N word and remark may be on it
 * @returns none for an empty line or a remark; one without words for text behind an M code
 * @see docs/method/draw.md, "Lines"
 */
export function lexLine(line: string, lexing: Lexing): Command[] {
  let text = codePart(line)
  if (text === '' || text.startsWith('%') || text.startsWith('/')) return []
  if (lexing.bracketEndsLine) text = before(text, '(')
  const first = firstWord.exec(text)
  if (first === null) return [named(text)]
  const letter = (first[1] as string).toUpperCase()
  const code = Number(first[2])
  let tail = text.slice(first[0].length)
  if (letter === 'M' && !isListedM(code)) {
    return [{ letter, code, words: new Map(), name: first[0], rest: '' }]
  }
  // `G92E0`: where exponents are read, the E belongs to the command's number and is lost with it.
  if (lexing.exponents && /\d$/.test(first[0])) tail = tail.replace(/^E[+-]?\d+/i, '')
  return cutCommands({ letter, code }, tail, lexing)
}

/** A line without indentation, N word, remark and checksum. */
export function codePart(line: string): string {
  const text = line.slice((head.exec(line) as RegExpExecArray)[0].length)
  return before(before(text, ';'), '*')
}

function before(text: string, mark: string): string {
  const at = text.indexOf(mark)
  return at < 0 ? text : text.slice(0, at)
}

function named(text: string): Command {
  const name = before(before(text, ' '), '\t')
  return { letter: '', code: Number.NaN, words: new Map(), name, rest: text.slice(name.length) }
}

function cutCommands(
  first: { letter: string; code: number },
  tail: string,
  lexing: Lexing,
): Command[] {
  let { letter, code } = first
  let words = new Map<string, Word>()
  const commands: Command[] = []
  const close = (): void => {
    commands.push({ letter, code, words, name: `${letter}${code}`, rest: '' })
  }
  const single = !isLookedInto(letter, code)
  for (const match of tail.matchAll(lexing.exponents ? exponentWord : plainWord)) {
    const key = (match[1] as string).toUpperCase()
    const next = (key === 'G' || key === 'M') && !single ? codeOf(match[2]) : null
    if (next !== null) {
      if (lexing.severalCommands) {
        close()
        words = new Map()
      }
      letter = key
      code = next
      // What follows a command whose tail is its own is none of the others'.
      if (lexing.severalCommands && !isLookedInto(letter, code)) break
    } else if (lexing.duplicateWord === 'last' || !words.has(key)) {
      const word = wordOf(match)
      if (word.value === null && !word.expression && inBrackets(tail, match.index)) continue
      words.set(key, word)
    }
  }
  close()
  return commands
}

/** Of a remark in brackets only letters with a number are words. */
const inBrackets = (text: string, at: number): boolean =>
  text.lastIndexOf('(', at) > text.lastIndexOf(')', at)

function codeOf(text: string | undefined): number | null {
  const digits = /^(?:\d+\.?\d*|\.\d+)/.exec(text ?? '')
  return digits === null ? null : Number(digits[0])
}

function wordOf([, , first, others, expression]: RegExpExecArray): Word {
  if (expression !== undefined) return { value: null, expression: true }
  if (first === undefined) return { value: null }
  if (others === undefined) return { value: Number(first) }
  return { value: Number(first), list: (first + others).split(':').map(Number) }
}
