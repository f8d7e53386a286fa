import type { WaitingTellJson, WaitingToolJson } from '../../contract/index.ts'
import { formatIsoMinute } from '../../units/index.ts'
import { lasting } from './time-words.ts'

/** What a tool wants of its filament. */
const filament = (
  { material, colours }: Partial<WaitingToolJson>,
  materialName: (id: string) => string,
): string => {
  const what = material === undefined ? 'any material' : materialName(material)
  return `${what}, ${colours === undefined ? 'any colour' : colours.join(' or ')}`
}

/** Words of the slate sheet. */
export const slateWords = {
  none: 'No print waits.',
  noneHint:
    'Put the prints on the slate that are to be made next: which reel does which is then decided for all of them together.',
  waiting: 'Prints that wait',
  add: 'Put a print on the slate',
  addThis: (file: string): string => `Put ${file} on the slate`,
  reading: 'Reading the print …',
  putOn: 'Put it on the slate',
  keep: 'Keep',
  leave: 'Leave it',
  change: 'Change',
  changeOf: (name: string): string => `Change ${name}`,
  takeOff: 'Take off the slate',
  takeOffOf: (name: string): string => `Take off the slate: ${name}`,
  copiesOf: ({ row: { copies }, waits }: WaitingTellJson): string => {
    if (copies === 1) return ''
    return waits === copies
      ? `${copies} copies`
      : `${waits} of ${copies} copies ${waits === 1 ? 'waits' : 'wait'}`
  },
  wants: (
    { row, tools, takes }: WaitingTellJson,
    printers: ReadonlyMap<string, string>,
    materialName: (id: string) => string,
  ): string => {
    const wanted = tools.map(({ tool }) => {
      const told = row.tools?.find((one) => one.tool === tool) ?? {}
      return `${tools.length > 1 ? `T${tool}: ` : ''}${filament(told, materialName)}`
    })
    const names = row.printers?.map((id) => printers.get(id) ?? id)
    return [
      ...wanted,
      ...(names === undefined ? [] : [`on ${names.join(' or ')}`]),
      ...(row.due === undefined ? [] : [`due ${formatIsoMinute(row.due)}`]),
      ...(row.importance === undefined
        ? []
        : [row.importance > 0 ? 'more important' : 'less important']),
      ...(row.changes === undefined ? [] : ['may change reels on the way']),
      ...(row.duration_h !== undefined
        ? [`takes ${row.duration_h} h, as told`]
        : takes === null
          ? []
          : [`takes about ${lasting(takes)}`]),
    ].join('; ')
  },
  copies: 'Copies',
  importance: 'Importance',
  importances: [
    ['2', 'before all else'],
    ['1', 'more'],
    ['0', 'as usual'],
    ['-1', 'less'],
  ] as const,
  note: 'Note',
  due: 'Due',
  duration: 'Hours it prints',
  mayBeLeft: 'Leave empty to have it reckoned from its moves.',
  filamentOf: (tool: number | null): string =>
    tool === null ? 'Filament' : `Filament of T${tool}`,
  anyMaterial: 'Any unless picked.',
  colours: 'Colours that will do',
  coloursHint: (known: readonly string[]): string =>
    known.length === 0
      ? 'Any unless told; several with commas between.'
      : `Any unless told; several with commas between. On the shelf: ${known.join(', ')}.`,
  printersMay: 'Printers that may do it (any unless ticked)',
  mayChange: 'A planned change of reels in mid-print is allowed',
  changeAfter: 'Layers after which it would not show',
  changeAfterHint: 'As 12-40, 77. Any layer end unless told.',
  layersMalformed: (piece: string): string =>
    `"${piece}" is no layer, nor layers as 12-40. Write them with commas between.`,
  layersOut: (count: number | null): string =>
    count === null
      ? 'Layers go from 1 up, the first before the last.'
      : `The print has layers 1 to ${count}; the first comes before the last.`,
} as const
