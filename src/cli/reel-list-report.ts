import type { ReelCard } from '../ledger/index.ts'
import { type ListedReel, makeOfReel } from '../service/index.ts'
import { formatIsoDay } from '../units/index.ts'
import { contradictionSentence } from './contradiction-sentence.ts'
import { sayCount, sayMass, sayMeasuredLength } from './say.ts'
import { niceWhole, softBar } from './scale-drawing.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { sheetWidth, wrap } from './wrap.ts'

const nameWidth = 17
const beforeName = 9
/** What a bar and the figure behind it share: a longer figure takes it off the bar. */
const barAndNet = 27
const usualNet = 13
const lengthWidth = 15

/** The reels of the shelf as a sheet, make by make, each with a bar of what is left. */
export const reelListReport = (
  terminal: Terminal,
  reels: readonly ListedReel[],
  any: boolean,
): string => {
  if (reels.length === 0) {
    return `${wrap(any ? 'No reel fits.' : 'The shelf is empty. The first reel: reelreckon reel add --help', '  ')}\n`
  }
  // Makers fill over the label: a full bar is what the largest label says.
  const labels = Math.max(...reels.map(({ card }) => labelOf(card)))
  const whole = niceWhole(
    labels > 0 ? labels : Math.max(...reels.map(({ now }) => now?.net.value ?? 0)),
  )
  const nets = reels.map(({ now }) => (now === undefined ? 0 : sayMass(now.net).length + 1))
  const netWidth = Math.max(usualNet, ...nets)
  const barWidth = barAndNet - netWidth
  const scale = `0${`${whole} g`.padStart(barWidth - 1)}`
  const lines = [
    '',
    `  ${sayCount(reels.length, 'reel')}`,
    '',
    paint(
      terminal,
      'faint',
      `  reel   ${'colour, place'.padEnd(nameWidth)} ${scale}${'net'.padStart(netWidth)}${'length'.padStart(lengthWidth)}${'weighed'.padStart(11)}`,
    ),
  ]
  let make: string | undefined
  for (const { card, now, contradicted } of reels) {
    const name = makeOfReel(card)
    if (name !== make) lines.push(...makeLines(name).map((line) => paint(terminal, 'strong', line)))
    make = name
    const [first = '', ...more] = wrap(harmless(saidOf(card)), '', '', nameWidth).split('\n')
    const figures =
      now === undefined
        ? 'not reckoned: see reel show'
        : `${softBar(now.net, whole / barWidth, barWidth)}${sayMass(now.net).padStart(netWidth)}${sayMeasuredLength(now.length).padStart(lengthWidth)}`
    const weighed = card.lastWeighing === undefined ? 'never' : formatIsoDay(card.lastWeighing.at)
    lines.push(
      `  ${card.id}  ${first.padEnd(nameWidth)} ${figures.padEnd(barAndNet + lengthWidth)}${weighed.padStart(11)}`,
      ...more.map((line) => `${' '.repeat(beforeName)}${line}`),
      ...(contradicted === undefined
        ? []
        : [
            wrap(
              contradictionSentence(contradicted, card.id),
              `${' '.repeat(beforeName)}!  `,
              ' '.repeat(beforeName + 3),
            ),
          ]),
    )
  }
  return [...lines, ''].join('\n')
}

/** The name of a make, broken at spaces and, where a word is wider than the sheet, cut. */
const makeLines = (name: string): readonly string[] =>
  wrap(harmless(name), '  ', '    ')
    .split('\n')
    .map((line) => (line.length <= sheetWidth ? line : `${line.slice(0, sheetWidth - 1)}…`))

const labelOf = ({ opened, make }: ReelCard): number => opened.label_net_g ?? make?.label_net_g ?? 0

const saidOf = ({ colour, place, state }: ReelCard): string =>
  [
    ...(colour === undefined ? [] : [colour.name]),
    ...(state === 'part-used' ? [] : [state]),
    ...(place === undefined || state === 'retired' ? [] : [place]),
  ].join(', ')
