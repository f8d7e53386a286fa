import { showId } from '../contract/index.ts'
import { nameOfReel, type ReelKnown, type ToldStory, toldFactToJson } from '../service/index.ts'
import { grams, measured } from '../units/index.ts'
import { withContradiction } from './contradiction-sentence.ts'
import { factLines } from './fact-lines.ts'
import { restRows, weighingRows } from './rests-on.ts'
import { sayMass, sayMeasuredLength } from './say.ts'
import { sayDay, sayMoment } from './say-moment.ts'
import { type Bar, scaleDrawing } from './scale-drawing.ts'
import { answerWith } from './settling.ts'
import { row } from './sheet-row.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { wrap } from './wrap.ts'

/** A reel's story as it is told now. */
export interface StoryNow extends ToldStory {
  /** Milliseconds since 1970. */
  readonly now: number
}

/** One reel as a sheet: what is on it, drawn; what that rests on; its life. */
export const reelShowReport = (terminal: Terminal, told: StoryNow): string => {
  const { card, known, at, knownAt, why, what } = told
  const { label_net_g: label } = card.opened
  const facts = [
    card.state,
    ...(card.place === undefined || card.state === 'retired' ? [] : [harmless(card.place)]),
    `on the shelf since ${sayDay(card.openedAt)}`,
    ...(card.lot === undefined ? [] : [`lot ${harmless(card.lot)}`]),
    ...(card.price === undefined ? [] : [`${card.price.amount} ${card.price.currency}`]),
  ]
  const then = [
    ...(at === undefined ? [] : [`as it was on ${sayMoment(at)}`]),
    ...(knownAt === undefined ? [] : [`by what was written down on ${sayMoment(knownAt)}`]),
  ]
  return [
    '',
    `  ${paint(terminal, 'strong', card.id)}  ${harmless(nameOfReel(card))}`,
    wrap(facts.join('; '), '  '),
    ...(then.length === 0 ? [] : [wrap(`${then.join(', ')}:`, '  ')]),
    '',
    ...(known === undefined
      ? [wrap(`Nothing can be reckoned of it. ${why ?? ''}`.trim(), '  !  ')]
      : figures(terminal, told, known, label)),
    '',
    paint(terminal, 'strong', '  Its life'),
    ...factLines(
      terminal,
      card.facts.map((one, place) => toldFactToJson(one, what[place] ?? one.fact.kind)),
    ),
    '',
  ].join('\n')
}

const figures = (
  terminal: Terminal,
  { card, wound, at, now }: StoryNow,
  { net, length, tare, working, next, notices, contradicted }: ReelKnown,
  label: number | undefined,
): readonly string[] => {
  const bars: readonly Bar[] = [
    ...(label === undefined
      ? []
      : [{ label: 'label', grams: measured(label), figure: sayMass(measured(grams(label))) }]),
    { label: at === undefined ? 'now' : 'then', grams: net, figure: sayMass(net) },
  ]
  const onShelf = working && { card, working, wound, now }
  return [
    ...scaleDrawing(bars, []),
    '',
    row('net', sayMass(net), ''),
    row('length', sayMeasuredLength(length), ''),
    ...(onShelf === undefined
      ? [row('tare', sayMass(tare), '')]
      : [
          '',
          paint(terminal, 'strong', '  What that rests on'),
          ...weighingRows(onShelf),
          ...restRows(onShelf.working.rests),
        ]),
    ...withContradiction(notices, contradicted).flatMap(({ message, fact }) => [
      '',
      wrap(withFact(message, fact), '  !  '),
    ]),
    ...(next === undefined || onShelf === undefined
      ? []
      : [
          '',
          paint(terminal, 'strong', '  To know it better'),
          wrap(
            `${next.instruction} ${next.effort_min} min; then the net is known to ± ${sayDoubt(next.netSd)} g and the length to ± ${sayDoubt(next.lengthSd / 1000)} m. Answer with ${answerWith(next.id, onShelf)}.`,
            '  ',
          ),
        ]),
  ]
}

/** A notice with the fact it is of, unless it names that already. */
const withFact = (message: string, fact: string | undefined): string =>
  fact === undefined || message.includes(showId(fact))
    ? message
    : `${message} It is the fact ${showId(fact)} (reelreckon put-right ${showId(fact)}).`

/** A standard uncertainty with one or two figures, as beside a value. */
const sayDoubt = (u: number): string =>
  String(Number(u.toPrecision(u < 3 * 10 ** Math.floor(Math.log10(u)) ? 2 : 1)))
