import type {
  CatalogueRowJson,
  RunningPrintJson,
  SlateJson,
  WaitingTellJson,
} from '../contract/index.ts'
import { rowsOf, wantedWords } from '../service/index.ts'
import { sayCount, sayLength, upTo } from './say.ts'
import { sayMoment } from './say-moment.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { sayClock } from './time-sentences.ts'
import { wrap } from './wrap.ts'

/** The prints that wait as a sheet, the most urgent first, below those that run. */
export const slateReport = (
  terminal: Terminal,
  { waiting }: SlateJson,
  rows: readonly CatalogueRowJson[],
  running: readonly RunningPrintJson[] = [],
): string => {
  const runs = running.map((one) => wrap(harmless(runsLine(one, rows)), '  '))
  if (waiting.length === 0) {
    return `${[...runs, wrap('Nothing waits. Put a print on the slate with: reelreckon slate add FILE', '  ')].join('\n')}\n`
  }
  const copies = waiting.reduce((sum, { waits }) => sum + waits, 0)
  return [
    '',
    ...runs,
    `  ${sayCount(waiting.length, 'print')}, ${sayCount(copies, 'copy', 'copies')} waiting`,
    ...waiting.flatMap((one) => ['', ...lines(terminal, one, rows)]),
    '',
  ].join('\n')
}

const runsLine = (
  { row: { printer, reels, started_at }, file }: RunningPrintJson,
  rows: readonly CatalogueRowJson[],
): string => {
  const on = rowsOf(rows, 'printer').find(({ id }) => id === printer)?.name ?? printer
  const from = [...new Set(reels.map(({ reel }) => reel))].join(', then ')
  return `${file ?? 'a print that was never kept'} runs on ${on} from ${from} since ${sayMoment(started_at)}`
}

const lines = (
  terminal: Terminal,
  { row, waits, file, layers, takes, cut_short: cuts, tools }: WaitingTellJson,
  rows: readonly CatalogueRowJson[],
): readonly string[] => {
  const { due, importance = 0, printers, changes, duration_h, done = 0, note } = row
  const names = (printers ?? []).map(
    (id) => rowsOf(rows, 'printer').find((each) => each.id === id)?.name ?? id,
  )
  const state =
    row.off === true ? 'taken off' : waits === 0 ? 'done' : sayCount(waits, 'copy', 'copies')
  const says = [
    `${file ?? 'its print was never kept'}${layers === null ? '' : `, ${sayCount(layers, 'layer')}`}`,
    ...tools.map(({ tool, draw_mm }) => {
      const wanted = wantedWords(rows, row.tools?.find((each) => each.tool === tool) ?? {})
      return `${tools.length > 1 ? `T${tool} ` : ''}${sayLength(draw_mm)} of ${wanted}`
    }),
    [
      ...(due === undefined ? [] : [`due ${sayMoment(due)}`]),
      ...(importance === 0 ? [] : [`importance ${importance}`]),
      ...(duration_h !== undefined
        ? [`takes ${upTo(duration_h, 1)} h, as told`]
        : takes === null
          ? []
          : [`takes about ${sayClock(takes)}`]),
      ...(names.length === 0 ? [] : [`on ${names.join(' or ')}`]),
      ...(done === 0 ? [] : [`${done} of ${row.copies} done`]),
    ].join(', '),
    changes === undefined ? '' : sayChanges(changes),
    ...cuts,
    note ?? '',
  ]
  return [
    `  ${row.id}  ${paint(terminal, 'strong', harmless(row.name))}  ${state}`,
    ...says.filter((each) => each !== '').map((each) => wrap(harmless(each), '         ')),
  ]
}

const sayChanges = ({
  most = 1,
  after_layers: layers,
}: NonNullable<WaitingTellJson['row']['changes']>): string => {
  const where =
    layers === undefined
      ? 'any layer'
      : `layer ${layers.map(([first, last]) => (first === last ? `${first}` : `${first} to ${last}`)).join(', ')}`
  return `may be changed ${most === 1 ? 'once' : `${most} times`} in mid-print, after ${where}`
}
