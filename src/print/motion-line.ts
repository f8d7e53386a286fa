import type { Command, Word } from './lex-line.ts'
import { isMotionM } from './motion-commands.ts'

const head = /^[ \t]*(?:N[ \t]*\d+[ \t]*)?M[ \t]*(\d{1,4})(?![\d.])([^;*]*)/i
const word = /([A-Z])[ \t]*([+-]?(?:\d+\.?\d*|\.\d+))/gi

/**
 * A line whose M code counts for time alone; null for any other. The reader of the draw takes such a
 * line for text. It comes often where speeds change with the parts of a print, so it is cut simply: all
 * families read it alike.
 */
export const motionLine = (line: string): Command | null => {
  const found = head.exec(line)
  if (found === null) return null
  const code = Number(found[1])
  if (!isMotionM(code)) return null
  const words = new Map<string, Word>()
  for (const [, letter, value] of (found[2] as string).matchAll(word)) {
    words.set((letter as string).toUpperCase(), { value: Number(value) })
  }
  return { letter: 'M', code, words, name: `M${code}`, rest: '' }
}
