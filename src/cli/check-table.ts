import type { ErrorPartJson } from '../contract/index.ts'
import type { CheckRow, ToolRow } from './check-row.ts'
import { nameIn, unreadLines } from './file-name-column.ts'
import type { ReelsJudged } from './judged.ts'
import { sayChance, sayCount, sayLack, sayLength, sayMass } from './say.ts'
import { standInLines } from './stand-in-lines.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { sheetWidth, wrap } from './wrap.ts'

const usualName = 27
const beforeName = 20

/** The columns of a judged print. */
export const checkHeading = (nameWidth: number = usualName): string =>
  `${'chance'.padStart(beforeName - 2)}  ${'print'.padEnd(nameWidth)}${'needs'.padStart(9)}  reel   after it`

/** Prints that are judged one after another on one printer. */
export interface InTurn {
  /** The first print of which nobody knows how long it takes, where others come after it. */
  readonly uncounted: string | null
  /** All of them from the reels that were told, as one; null without such. */
  readonly together: ReelsJudged | null
}

/** Prints in a line each, in the order they were asked for, then how many are what. */
export const checkTable = (
  terminal: Terminal,
  rows: readonly CheckRow[],
  errors: readonly ErrorPartJson[],
  inTurn?: InTurn,
): string => {
  const noted = [...feedingNotes(rows), ...rows.flatMap(checkNotes)]
  return [
    '',
    ...(rows.length > 0
      ? [
          paint(terminal, 'faint', checkHeading()),
          ...rows.flatMap((row) => checkLines(terminal, row)),
          '',
        ]
      : []),
    wrap(total(rows, errors, inTurn), '  '),
    ...togetherLines(terminal, inTurn?.together ?? null),
    ...standInLines(rows.map(({ standIn }) => standIn)),
    ...(noted.length > 0 ? ['', ...noted] : []),
    ...(errors.length > 0 ? ['', ...unreadLines(errors)] : []),
    '',
  ].join('\n')
}

/** The line of a judged print, and one for each further tool. */
export const checkLines = (
  terminal: Terminal,
  row: CheckRow,
  nameWidth: number = usualName,
): readonly string[] => {
  const { verdict, chance, tools } = row
  const word = paint(terminal, verdict, verdict.padEnd(7))
  const several = tools.length > 1
  const head = `  ${word}${sayChance(chance).padStart(9)}  ${nameIn(row, nameWidth).padEnd(nameWidth)}`
  const lines = several
    ? [
        head.trimEnd(),
        ...tools.map(
          (tool) => `${`T${tool.tool}`.padStart(beforeName + nameWidth - 2)}  ${toolCells(tool)}`,
        ),
      ]
    : [head + toolCells(tools[0]!)]
  return row.times === null ? lines : [...lines, ...timesLines(row.times, nameWidth)]
}

/** As wide as the sheet where names are: a narrower column of names leaves room for the time of day. */
const timesLines = (times: string, nameWidth: number): readonly string[] =>
  wrap(times, indent, indent, sheetWidth - usualName + nameWidth).split('\n')

const indent = ' '.repeat(beforeName)

const toolCells = ({ draw_mm, reel, outcome }: ToolRow): string =>
  `${sayLength(draw_mm).padStart(9)}  ${(reel ?? '').padEnd(5)}  ${outcome}`.trimEnd()

/** Questions and warnings about the file of a judged print. */
export const checkNotes = (row: CheckRow): readonly string[] =>
  row.findings.map(({ severity, message }) =>
    wrap(harmless(`${nameIn(row, 60)}: ${message}`), severity === 'ask' ? '  ?  ' : '  !  '),
  )

/** Which of the reels that are told feed a print that runs, each once. */
export const feedingNotes = (rows: readonly CheckRow[]): readonly string[] =>
  [...new Set(rows.flatMap(({ feeding }) => feeding))].map((each) => wrap(harmless(each), '  !  '))

const total = (
  rows: readonly CheckRow[],
  errors: readonly ErrorPartJson[],
  inTurn: InTurn | undefined,
): string => {
  const counted = (['enough', 'close', 'short'] as const).flatMap((verdict) => {
    const count = rows.filter((row) => row.verdict === verdict).length
    return count === 0 ? [] : [`${count} ${verdict}`]
  })
  const judged =
    rows.length === 0
      ? 'No print could be judged.'
      : `${sayCount(rows.length, 'print')}, each judged by itself as if it were the next one${inTurn ? ', and begun when the one before is off the printer' : ''}: ${counted.join(', ')}.${uncountedIn(inTurn)}`
  return errors.length === 0
    ? judged
    : `${judged} ${sayCount(errors.length, 'file')} could not be judged.`
}

const togetherLines = (terminal: Terminal, together: ReelsJudged | null): readonly string[] => {
  if (together === null) return []
  const { verdict, chance, tools } = together.whole
  const asked = tools.map(({ tool, neededDraw_mm, leftOver }) => {
    const of = tools.length > 1 ? `T${tool}: ` : ''
    const left =
      leftOver.value < 0 ? `${sayLack(leftOver)} are lacking` : `${sayMass(leftOver)} would stay`
    return `${of}${sayLength(neededDraw_mm.value)} asked for, ${left}`
  })
  const word = paint(terminal, verdict, verdict.toUpperCase())
  return [
    '',
    wrap(
      `Together, from the same ${tools.length > 1 ? 'reels' : 'reel'}: ${word}, chance ${sayChance(chance)}; ${asked.join('; ')}.`,
      '  ',
    ),
  ]
}

const uncountedIn = (inTurn: InTurn | undefined): string =>
  inTurn === undefined || inTurn.uncounted === null
    ? ''
    : ` How long ${harmless(inTurn.uncounted)} takes is not known: what comes after it is told without a time of day.`
