import { changeCaution, disagreement } from '../contract/index.ts'
import {
  feedsPrint,
  findingToJson,
  nameOfReel,
  type RankedReel,
  type ToolRanking,
  type TwoReels,
} from '../service/index.ts'
import type { Verdict } from '../verdict/index.ts'
import type { ShelfFound } from './check-over-shelf.ts'
import { head, titleOf } from './check-report.ts'
import { questions, remarks } from './findings-report.ts'
import { sayChance, sayCount, sayHeight, sayLack, sayLength, sayMass, upTo } from './say.ts'
import { inWords, oddsOf, seldom } from './settling.ts'
import { standInLines, standInOf } from './stand-in-lines.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { placeInBrief, timeOfPrint } from './time-sentences.ts'
import { doubtOfFile } from './what-is-drawn.ts'
import { sheetWidth, wrap } from './wrap.ts'

/** The shelf's answer as a sheet: the call, then the reels, tool by tool. */
export const shelfCheckReport = (terminal: Terminal, found: ShelfFound, all: boolean): string => {
  const { drawn, tools, taken, printer, onShelf, otherDiameter, diameter_mm } = found
  const several = tools.length > 1
  const findings = drawn.findings.map(findingToJson)
  const asked = questions(findings)
  const noted = remarks(findings)
  const judgedReels = tools[0]!.reels.length
  const others =
    otherDiameter > 0
      ? `; ${sayCount(otherDiameter, 'reel')} of another diameter than ${upTo(diameter_mm, 2)} mm left out`
      : ''
  const feeding = printer.name === undefined ? '' : ` on ${harmless(printer.name)}`
  return [
    ...head(
      terminal,
      found,
      `${titleOf(drawn)}${feeding}`,
      doubtOfFile(drawn) ?? sentence(found),
      doubtOfFile(drawn) !== undefined ||
        tools.some(({ reels }, place) =>
          reels.some(
            ({ card, contradicting }) => card.id === taken[place] && contradicting.length > 0,
          ),
        ),
    ),
    ...(asked.length > 0 ? ['', ...asked] : []),
    ...(found.times === undefined
      ? []
      : ['', wrap(timeOfPrint(found.times, Date.now()), '  ', '  ')]),
    ...(found.two === null ? [] : ['', ...twoLines(found.two, found)]),
    ...tools.flatMap((each) => toolSheet(terminal, each, several, all)),
    ...standInLines([standInOf(printer)]),
    '',
    wrap(
      `${judgedReels} of ${sayCount(onShelf, 'reel')} in use judged${others}. What the feed leaves on the reel, tail included, is what stays.`,
      '  ',
    ),
    ...(noted.length > 0 ? ['', paint(terminal, 'strong', '  In the file'), ...noted] : []),
    '',
  ].join('\n')
}

/** Two reels that do together what none does alone. */
const twoLines = (
  { first, second, afterLayer, height_mm }: TwoReels,
  { times, drawn }: ShelfFound,
): readonly string[] => {
  const planned = drawn.layers?.endTime_s?.[afterLayer - 1]
  const when =
    times === undefined || planned === undefined
      ? ''
      : ` The change comes ${placeInBrief(times, planned, Date.now())}.`
  return [
    wrap(
      harmless(
        `Two reels do it with a change: ${first.id} (${nameOfReel(first)}) to layer ${afterLayer} (${sayHeight(height_mm)}), then ${second.id}.${when} reelreckon pause puts the stop into a copy of the file.`,
      ),
      '  ',
    ),
    wrap(changeCaution, '  '),
  ]
}

const sentence = (found: ShelfFound): string =>
  [answer(found), ...feedingTaken(found).map(harmless)].join(' ')

/** Which of the reels that would be taken feed a print that runs. */
export const feedingTaken = ({ tools, taken }: ShelfFound): readonly string[] =>
  tools
    .flatMap(({ reels }, place) => reels.filter(({ card }) => card.id === taken[place]))
    .flatMap(({ card, feedsPrintsOn }) => feedsPrintsOn.map((on) => feedsPrint(card.id, on)))

const answer = ({ verdict, tools, filter }: ShelfFound): string => {
  const [first] = tools
  if (tools.length > 1) return ofSeveral[verdict]
  const [best] = first!.reels
  if (best === undefined) {
    const asked = Object.entries(filter).map(([what, words]) => `${what} ${words}`)
    return `No reel in use fits${asked.length === 0 ? '' : ` ${asked.join(', ')}`}.`
  }
  const { id } = best.card
  if (verdict === 'enough') return `Reel ${id} finishes it; ${sayMass(best.leftOver)} stay on it.`
  if (verdict === 'close') {
    const [doubt] = doubtOf(best)
    const others = first!.reels.some(
      (one) => one.verdict === verdict && one.feedsPrintsOn.length > best.feedsPrintsOn.length,
    )
    return `No reel is sure to. ${doubt ?? `The likeliest${others ? ' that feeds no print now' : ''} is ${id}.`}`
  }
  return `Every reel is short. The fullest is ${id}: it lacks ${sayLack(best.margin)}.`
}

/** Why a reel is close whatever its chance. */
const doubtOf = ({ card, contradicting }: RankedReel): readonly string[] =>
  contradicting.length === 0 ? [] : [disagreement(`reel ${card.id}`, contradicting)]

const ofSeveral: Readonly<Record<Verdict, string>> = {
  enough: 'Every tool can have a reel of its own that is enough.',
  close: 'Not every tool can have a reel that is sure to last.',
  short: 'There are not reels enough on the shelf for every tool.',
}

const beforeName = 27

/** Columns of the rows; a figure that is longer than usual takes its room off the name. */
interface RowWidths {
  readonly name: number
  readonly holds: number
  readonly stays: number
}

const widthsFor = (reels: readonly RankedReel[]): RowWidths => {
  const holds = Math.max(13, ...reels.map(({ net }) => sayMass(net).length + 1))
  const stays = Math.max(14, ...reels.map(({ leftOver }) => sayMass(leftOver).length + 1))
  return { name: sheetWidth - beforeName - holds - stays, holds, stays }
}

const heading = ({ name, holds, stays }: RowWidths): string =>
  `${'chance'.padStart(18)}  reel   ${'make, colour, place'.padEnd(name)}${'holds'.padStart(holds)}${'would stay'.padStart(stays)}`

const toolSheet = (
  terminal: Terminal,
  { tool, draw_mm, reels }: ToolRanking,
  several: boolean,
  all: boolean,
): readonly string[] => {
  const able = reels.filter(({ verdict }) => verdict !== 'short')
  const short = reels.slice(able.length)
  const [fullest] = short
  const shown = all ? reels : able
  const widths = widthsFor(shown)
  return [
    '',
    ...(several ? [paint(terminal, 'strong', `  T${tool}, ${sayLength(draw_mm)}`)] : []),
    ...(shown.length > 0 ? [paint(terminal, 'faint', heading(widths))] : []),
    ...shown.flatMap((reel) => reelRows(terminal, reel, widths)),
    ...(fullest === undefined || all
      ? []
      : [
          wrap(
            `${sayCount(short.length, 'reel')}; the fullest, ${fullest.card.id} (${harmless(nameOfReel(fullest.card))}), lacks ${sayLack(fullest.margin)}. --all lists them.`,
            `  ${paint(terminal, 'short', 'short')}    `,
            ' '.repeat(11),
          ),
        ]),
  ]
}

/** What settles a close call, short; `check --reel` has it in full. */
const advice = (next: NonNullable<RankedReel['next']>): string =>
  next.settles < seldom
    ? 'No measurement is likely to settle it.'
    : `${inWords[next.id] ?? next.instruction}: ${oddsOf(next)}.`

const reelRows = (
  terminal: Terminal,
  ranked: RankedReel,
  { name: nameWidth, holds, stays }: RowWidths,
): readonly string[] => {
  const { card, verdict, chance, net, leftOver, next } = ranked
  const doubt = doubtOf(ranked)
  const name = [nameOfReel(card), ...(card.place === undefined ? [] : [card.place])].join(', ')
  const [first = '', ...more] = wrap(harmless(name), '', '', nameWidth).split('\n')
  const word = paint(terminal, verdict, verdict.padEnd(7))
  const odds = doubt.length > 0 ? '–' : sayChance(chance)
  const indent = ' '.repeat(beforeName)
  return [
    `  ${word}${odds.padStart(9)}  ${card.id}  ${first.padEnd(nameWidth)}${sayMass(net).padStart(holds)}${sayMass(leftOver).padStart(stays)}`,
    ...more.map((line) => `${indent}${line}`),
    ...doubt.map((each) => wrap(each, indent, indent, sheetWidth)),
    ...ranked.feedsPrintsOn.map((on) =>
      wrap(
        harmless(`feeds a print on ${on}, which is not off this yet`),
        indent,
        indent,
        sheetWidth,
      ),
    ),
    ...(next === null ? [] : [wrap(advice(next), indent, indent, sheetWidth)]),
  ]
}
