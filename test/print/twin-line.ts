import type { FirmwareFamily } from '../../src/print/index.ts'

/** A letter and what stands behind it. */
export interface Word {
  /** Upper case. */
  readonly letter: string
  /** The numbers of a colon list; one for a plain word, none for a bare letter. */
  readonly values: readonly number[]
  /** The letter is followed by a brace. */
  readonly expression: boolean
  /** The numbers as written. */
  readonly text: string
}

export interface Command {
  /** `G1`, `M221`, `G29.1`, `T0`. */
  readonly name: string
  /** Every word after the command, as written. */
  readonly all: readonly Word[]
  /** For each letter the word that counts. */
  readonly words: ReadonlyMap<string, Word>
}

/** The commands that are looked into. Anything else is text. */
const moves = ['G0', 'G1', 'G2', 'G3', 'G5']
const looked = new Set([
  ...moves,
  'G10',
  'G11',
  'G20',
  'G21',
  'G28',
  'G90',
  'G91',
  'G92',
  'M82',
  'M83',
  'M109',
  'M116',
  'M190',
  'M191',
  'M200',
  'M207',
  'M208',
  'M209',
  'M221',
])
/** Commands that count but whose tail is text or is not needed. */
const counted = new Set([
  'M0',
  'M1',
  'M2',
  'M25',
  'M30',
  'M226',
  'M600',
  'M601',
  'M808',
  'M92',
  'M98',
  'M163',
  'M164',
  'M165',
  'M166',
  'M567',
  'M810',
  'M811',
  'M812',
  'M813',
  'M814',
  'M815',
  'M816',
  'M817',
  'M818',
  'M819',
])

export const isMove = (name: string): boolean => moves.includes(name)
export const isProbing = (name: string): boolean => /^G29(\.\d+)?$/.test(name)
export const isLookedInto = (name: string): boolean =>
  looked.has(name) || name.startsWith('G') || name.startsWith('T')
export const isListed = (name: string): boolean => isLookedInto(name) || counted.has(name)

/** Code part of a line: no comment, no checksum, no indentation, no line number. */
export const codePart = (text: string): string => {
  const code = text
    .replace(/[;*].*$/s, '')
    .replace(/^[ \t]+/, '')
    .replace(/^[Nn][ \t]*[0-9]+[ \t]*/, '')
  return code.startsWith('%') || code.startsWith('/') ? '' : code
}

/** The command a line begins with, or nothing. `G01` is G1, `G1.0` is G1, `G-1` is text. */
export const firstCommand = (text: string): string | undefined => {
  const found = /^([GMT])[ \t]*([0-9]+\.?[0-9]*|\.[0-9]+)/i.exec(codePart(text))
  return found ? `${found[1]!.toUpperCase()}${Number(found[2])}` : undefined
}

const number = String.raw`[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)`
const exponent = String.raw`(?:(?<=[0-9])[Ee][+-]?[0-9]+)?`

/**
 * Every letter of a stretch of code with the numbers behind it. What stands in braces is one value,
 * whatever letters it has.
 */
export const lexWords = (code: string, exponents: boolean): readonly Word[] => {
  const one = exponents ? `${number}${exponent}` : number
  const word = new RegExp(`([A-Za-z])[ \\t]*(?:(${one}(?::${one})*)|(\\{[^}]*\\}?))?`, 'g')
  return [...code.matchAll(word)].map((match) => ({
    letter: match[1]!.toUpperCase(),
    values: (match[2] ?? '').split(':').filter(Boolean).map(Number),
    expression: match[3] !== undefined,
    text: match[2] ?? '',
  }))
}

const commandName = (word: Word): string | undefined => {
  const digits = /^(?:[0-9]+\.?[0-9]*|\.[0-9]+)/.exec(word.text)
  return digits && 'GM'.includes(word.letter) ? `${word.letter}${Number(digits[0])}` : undefined
}

const pickWords = (all: readonly Word[], which: 'first' | 'last'): Map<string, Word> => {
  const picked = new Map<string, Word>()
  for (const word of all) {
    if (which === 'last' || !picked.has(word.letter)) picked.set(word.letter, word)
  }
  return picked
}

/** The commands of one line as one family reads them; none when the line is text. */
export const readLine = (text: string, family: FirmwareFamily): readonly Command[] => {
  let code = codePart(text)
  if (family.bracketEndsLine) code = code.replace(/\(.*$/s, '')
  // Of a remark in brackets only letters with a number are words.
  code = code.replace(/\([^)]*/g, (remark) =>
    remark.replace(/[A-Za-z](?![ \t]*(?:[+-]?\.?[0-9]|\{))/g, '_'),
  )
  const first = firstCommand(code)
  if (first === undefined || !isListed(first)) return []
  const tail = code.replace(/^[GMT][ \t]*(?:[0-9]+\.?[0-9]*|\.[0-9]+)/i, '')
  // Under exponents an E right behind the command's number is swallowed by it: `G92E0` is G92.
  const dense = family.exponents && /[0-9]$/.test(code.slice(0, code.length - tail.length))
  const words = lexWords(dense ? tail.replace(/^[Ee][+-]?[0-9]+/, '') : tail, family.exponents)

  if (!isLookedInto(first)) {
    return [{ name: first, all: words, words: pickWords(words, family.duplicateWord) }]
  }
  if (!family.severalCommands) {
    const names = words.map(commandName).filter((name) => name !== undefined)
    const last = names.at(-1) ?? first
    return isListed(last)
      ? [{ name: last, all: words, words: pickWords(words, family.duplicateWord) }]
      : []
  }
  let current: { name: string; all: Word[] } = { name: first, all: [] }
  const commands = [current]
  for (const word of words) {
    const name = commandName(word)
    if (name === undefined) {
      current.all.push(word)
      continue
    }
    current = { name, all: [] }
    commands.push(current)
    // A command whose tail is text takes the rest of the line.
    if (!isLookedInto(name)) break
  }
  return commands
    .filter(({ name }) => isListed(name))
    .map(({ name, all }) => ({ name, all, words: pickWords(all, family.duplicateWord) }))
}

/** `NAME KEY=VALUE …`: name and keys in upper case; nothing when the line is not of that form. */
export const readNamed = (
  text: string,
): { readonly name: string; readonly values: ReadonlyMap<string, string> } | undefined => {
  const code = codePart(text)
  if (firstCommand(text) !== undefined) return undefined
  const [name, ...rest] = code.split(/[ \t]+/)
  if (name === undefined || !/^[A-Za-z][A-Za-z0-9_]{2,}$/.test(name)) return undefined
  const values = new Map<string, string>()
  for (const part of rest) {
    const at = part.indexOf('=')
    if (at > 0) values.set(part.slice(0, at).toUpperCase(), part.slice(at + 1))
  }
  return { name: name.toUpperCase(), values }
}

/** The plain number a value begins with. */
export const plainNumber = (value: string | undefined): number | undefined => {
  const found = new RegExp(`^${number}`).exec(value ?? '')
  return found ? Number(found[0]) : undefined
}
