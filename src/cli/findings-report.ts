import type { FindingJson } from '../contract/index.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

const say = ({ line, count, message }: FindingJson): string =>
  harmless(`${message} (line ${line}${count > 1 ? `, ${count} times` : ''})`)

/** Questions about the file: what to answer stands in each of them. */
export const questions = (findings: readonly FindingJson[]): readonly string[] =>
  findings
    .filter(({ severity }) => severity === 'ask')
    .map(({ message }) => wrap(harmless(message), '  ?  '))

/** Warnings and notes about the file. */
export const remarks = (findings: readonly FindingJson[]): readonly string[] =>
  (['warn', 'note'] as const).flatMap((wanted) =>
    findings
      .filter(({ severity }) => severity === wanted)
      .map((finding) => wrap(say(finding), wanted === 'warn' ? '  !  ' : '  ·  ')),
  )
