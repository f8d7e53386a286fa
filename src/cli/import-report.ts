import type { ImportJson } from '../contract/index.ts'
import { grams, measured } from '../units/index.ts'
import { sayCount, sayMass } from './say.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

const shown = 20

const holds = (net: ImportJson['reels'][number]['net_g'], dry: boolean): string => {
  if (net === null) return 'what it holds can not be reckoned'
  return `${dry ? 'would hold' : 'holds'} ${sayMass(measured(grams(net.value), net.u))}`
}

/** What was taken over, or would be. */
export const importReport = (
  { file, dry_run: dry, written, same, older, reels, skipped, columns }: ImportJson,
  said: readonly string[],
): string => {
  const isTable = columns.length > 0
  const what = isTable
    ? `${sayCount(reels.length, 'reel')}, ${sayCount(written, 'record')}`
    : sayCount(written, 'record')
  const rest = [
    ...(same > 0 ? [`${sayCount(same, 'record')} there already`] : []),
    ...(older > 0 ? [`${older} older than what is there`] : []),
  ]
  const head = `${dry ? 'Would be taken' : 'Taken'} from ${harmless(file)}: ${[what, ...rest].join('; ')}.${dry ? ' Nothing was written.' : ''}`
  const more = (count: number): readonly string[] =>
    count > shown ? [`  and ${count - shown} more`] : []
  return [
    wrap(head, '  '),
    ...(said.length > 0 ? ['', ...said.map((line) => wrap(harmless(line), '  ', '    '))] : []),
    // A rehearsal's ids are of no use: the next run gives others.
    ...(reels.length > 0
      ? [
          '',
          ...reels
            .slice(0, shown)
            .map((reel) =>
              wrap(
                `${harmless(reel.what)}: ${holds(reel.net_g, dry)}`,
                `  ${dry ? `row ${String(reel.row).padEnd(4)}` : reel.id}  `,
              ),
            ),
          ...more(reels.length),
        ]
      : []),
    ...(skipped.length > 0
      ? [
          '',
          `  Left out`,
          ...skipped.slice(0, shown).map(({ row, column, message }) => {
            const where = column === null ? '' : `, column "${harmless(column)}"`
            return wrap(`row ${row}${where}: ${harmless(message)}`, '  ', '    ')
          }),
          ...more(skipped.length),
        ]
      : []),
    '',
  ].join('\n')
}
