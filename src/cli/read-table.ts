import type { ErrorPartJson, ReadPrintJson, ReadToolJson } from '../contract/index.ts'
import { formatMass, grams, measured } from '../units/index.ts'
import { nameIn, unreadLines } from './file-name-column.ts'
import { sayCount, sayLength, upTo } from './say.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { textTable } from './text-table.ts'
import { sayBriefly } from './time-sentences.ts'
import { wrap } from './wrap.ts'

/** Prints in a line each, in the order they were asked for, then what there is to know of them. */
export const readTable = (
  terminal: Terminal,
  prints: readonly ReadPrintJson[],
  errors: readonly ErrorPartJson[],
): string => {
  const columns = {
    tools: prints.some(({ tools }) => tools.length > 1),
    mass: prints.some(({ tools }) => tools.some((tool) => tool.nominal_mass_g !== null)),
  }
  const heads = ['print', 'tool', 'draws', 'mass', 'layers', 'height', 'takes'].filter(
    (name) => (name !== 'tool' || columns.tools) && (name !== 'mass' || columns.mass),
  )
  const [head, ...rows] = textTable(
    heads,
    prints.flatMap((print) => rowsOf(print, columns)),
    { right: heads.flatMap((name, place) => (name === 'print' || name === 'tool' ? [] : [place])) },
  )
    .trimEnd()
    .split('\n')
  const noted = prints.flatMap(notesOf)
  return [
    '',
    ...(prints.length > 0 ? [paint(terminal, 'faint', head ?? ''), ...rows, ''] : []),
    wrap(total(prints, errors), '  '),
    ...(noted.length > 0 ? ['', ...noted] : []),
    ...(errors.length > 0 ? ['', ...unreadLines(errors)] : []),
    '',
  ].join('\n')
}

interface Columns {
  readonly tools: boolean
  readonly mass: boolean
}

/** What the other columns leave of a sheet at their widest. */
const nameWidth = ({ tools, mass }: Columns): number => 38 - (tools ? 6 : 0) - (mass ? 16 : 0)

const rowsOf = (print: ReadPrintJson, columns: Columns): readonly (readonly string[])[] => {
  const { tools, layers, time } = print
  const name = nameIn(print, nameWidth(columns))
  const size = [
    layers.count === 0 ? '–' : layers.count.toLocaleString('en-GB'),
    layers.top_mm === null ? '–' : `${upTo(layers.top_mm, 2)} mm`,
    time === null ? '–' : sayBriefly(time.takes),
  ]
  const row = (
    names: string,
    tool: string,
    draws: string,
    mass: ReadToolJson['nominal_mass_g'],
    rest: readonly string[],
  ): readonly string[] => [
    names,
    ...(columns.tools ? [tool] : []),
    draws,
    ...(columns.mass ? [mass === null ? '' : formatMass(measured(grams(mass.value), mass.u))] : []),
    ...rest,
  ]
  if (tools.length === 0) return [row(name, '', 'nothing', null, size)]
  return tools.map(({ tool, peak_mm, nominal_mass_g: mass }, place) =>
    row(
      place === 0 ? name : '',
      tools.length > 1 ? `T${tool}` : '',
      sayLength(peak_mm),
      mass,
      place === 0 ? size : ['', '', ''],
    ),
  )
}

/** Questions and warnings; what is only worth a note stands where a print is read by itself. */
const notesOf = (print: ReadPrintJson): readonly string[] =>
  print.findings
    .filter(({ severity }) => severity !== 'note')
    .map(({ severity, message }) =>
      wrap(harmless(`${nameIn(print, 60)}: ${message}`), severity === 'ask' ? '  ?  ' : '  !  '),
    )

const total = (prints: readonly ReadPrintJson[], errors: readonly ErrorPartJson[]): string => {
  const draw = prints.reduce(
    (sum, { tools }) => sum + tools.reduce((each, { peak_mm }) => each + peak_mm, 0),
    0,
  )
  const read = `${sayCount(prints.length, 'print')} ${prints.length === 1 ? 'draws' : 'draw'} ${sayLength(draw)} in all.`
  return errors.length === 0
    ? read
    : `${read} ${sayCount(errors.length, 'file')} could not be read.`
}
