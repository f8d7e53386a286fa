import type { Verdict } from '../verdict/index.ts'

/**
 * The verdict's mark in three lines of three columns: a closed ring, a ring with a gap, half a
 * ring. It never stands without the word and the chance.
 */
export const ring: Readonly<Record<Verdict, readonly [string, string, string]>> = {
  enough: ['╭─╮', '│ │', '╰─╯'],
  close: ['╭─ ', '│ │', '╰─╯'],
  short: ['╭─ ', '│  ', '╰─ '],
}
