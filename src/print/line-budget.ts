import { lexLine, plainLexing } from './lex-line.ts'
import { isListedM, knownNames } from './listed-codes.ts'
import { ReadStop } from './read-stop.ts'

/** Longest line of machine code taken, bytes; remarks and texts may be longer. */
export const lineBudget = 65_536

/** Whether a line of code that counts is longer than the budget, remark not counted. */
export function overBudget(text: string): boolean {
  if (text.length <= lineBudget || text.replace(/;.*$/s, '').length <= lineBudget) return false
  const [command] = lexLine(text.slice(0, 1024).trimEnd(), plainLexing)
  if (command === undefined) return false
  if (command.letter === 'M') return isListedM(command.code)
  return command.letter !== '' || knownNames.has(command.name.toUpperCase())
}

/** The refusal of a line over the budget. */
export const tooLong = (byte: number, line: number): ReadStop =>
  new ReadStop({
    code: 'line_too_long',
    message: `A line of machine code is longer than ${lineBudget} bytes: this is hardly a print. Check the file.`,
    at: byte,
    line,
  })
