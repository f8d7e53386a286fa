import { showId, type ToldFactJson } from '../contract/index.ts'
import { formatIsoDay } from '../units/index.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { wrap } from './wrap.ts'

const factsFrom = 27

/** Facts with their days and ids; those that do not hold marked, with the reason. */
export const factLines = (terminal: Terminal, facts: readonly ToldFactJson[]): readonly string[] =>
  facts.map(({ id, at, what, voided }) => {
    const mark = voided === null ? ' ' : '×'
    const why =
      voided === null
        ? ''
        : ` -- does not hold: ${harmless(voided.reason)} (put right by ${showId(voided.by)})`
    const line = wrap(
      `${harmless(what)}${why}`,
      `  ${formatIsoDay(at)} ${mark}${showId(id)}  `,
      ' '.repeat(factsFrom),
    )
    return voided === null ? line : paint(terminal, 'faint', line)
  })
