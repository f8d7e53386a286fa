import type { FindingJson } from '../contract/index.ts'
import { inCommandWords } from './in-command-words.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

/** What holds for the whole file has no place in it. */
const placeOf = ({ byte, line, count }: FindingJson): string => {
  if (count > 1) return ` (line ${line}, ${count} times)`
  return byte > 0 ? ` (line ${line})` : ''
}

const say = (finding: FindingJson): string => harmless(inCommandWords(finding) + placeOf(finding))

/** Questions about the file: what to answer stands in each of them. */
export const questions = (findings: readonly FindingJson[]): readonly string[] =>
  findings
    .filter(({ severity }) => severity === 'ask')
    .map((finding) => wrap(harmless(inCommandWords(finding)), '  ?  '))

/** Warnings and notes about the file. */
export const remarks = (findings: readonly FindingJson[]): readonly string[] =>
  (['warn', 'note'] as const).flatMap((wanted) =>
    findings
      .filter(({ severity }) => severity === wanted)
      .map((finding) => wrap(say(finding), wanted === 'warn' ? '  !  ' : '  ·  ')),
  )
