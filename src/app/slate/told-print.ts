import type {
  WaitingChangeRequest,
  WaitingRequest,
  WaitingRowJson,
  WaitingToolJson,
} from '../../contract/index.ts'
import { formatIsoMinute } from '../../units/index.ts'
import { parseLayers, showLayers } from './parse-layers.ts'

/** What is wanted of a waiting print, as its form keeps it. */
export interface WantedPrint {
  readonly copies: number
  readonly tools: readonly WantedTool[]
  /** Ids; none: any. */
  readonly printers: readonly string[]
  /** `2026-12-24 18:00`, where the person is; empty: no matter when. */
  readonly due: string
  readonly importance: number
  readonly mayChange: boolean
  /** As typed; empty: after any layer. */
  readonly layers: string
  readonly duration_h: number | null
  /** Empty: none. */
  readonly note: string
}

/** What a tool wants of its filament. */
export interface WantedTool {
  readonly tool: number
  /** Null: any. */
  readonly material: string | null
  /** Names with commas between; empty: any. */
  readonly colours: string
}

/** A moment as its field has it, on the wire. */
const momentOf = (due: string): string => new Date(due.replace(' ', 'T')).toISOString()

/** What the form of a print begins with. @param tools - that feed */
export const wantedOf = (row: WaitingRowJson | null, tools: readonly number[]): WantedPrint => ({
  copies: row?.copies ?? 1,
  tools: tools.map((tool) => {
    const told = row?.tools?.find((one) => one.tool === tool)
    return {
      tool,
      material: told?.material ?? null,
      colours: (told?.colours ?? []).join(', '),
    }
  }),
  printers: row?.printers ?? [],
  due: row?.due === undefined ? '' : formatIsoMinute(row.due),
  importance: row?.importance ?? 0,
  mayChange: row?.changes !== undefined,
  layers: showLayers(row?.changes?.after_layers ?? []),
  duration_h: row?.duration_h ?? null,
  note: row?.note ?? '',
})

const toolsTold = (
  wanted: WantedPrint,
  before: readonly WaitingToolJson[],
): readonly WaitingToolJson[] =>
  wanted.tools.flatMap(({ tool, material, colours }) => {
    const names = colours
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== '')
    // What this form does not show of a tool stays.
    const {
      material: _m,
      colours: _c,
      ...rest
    } = before.find((one) => one.tool === tool) ?? {
      tool,
    }
    const told = {
      ...rest,
      ...(material !== null && { material }),
      ...(names.length > 0 && { colours: names }),
    }
    return Object.keys(told).length > 1 ? [told] : []
  })

/**
 * What comes to the slate.
 *
 * @param print - id of the kept print
 * @param diameter_mm - of the filament that it was said to be printed with
 */
export function requestOf(
  wanted: WantedPrint,
  print: string,
  diameter_mm?: number,
): WaitingRequest {
  const { copies, printers, due, importance, mayChange, duration_h } = wanted
  const note = wanted.note.trim()
  const said =
    diameter_mm === undefined ? [] : wanted.tools.map(({ tool }) => ({ tool, diameter_mm }))
  const tools = toolsTold(wanted, said)
  return {
    print,
    copies,
    ...(tools.length > 0 && { tools }),
    ...(printers.length > 0 && { printers }),
    ...(due !== '' && { due: momentOf(due) }),
    ...(importance !== 0 && { importance }),
    ...(mayChange && { changes: changesOf(wanted) }),
    ...(duration_h !== null && { duration_h }),
    ...(note !== '' && { note }),
  }
}

/** What changes of a waiting print: all that its form shows. */
export function changeOf(wanted: WantedPrint, row: WaitingRowJson): WaitingChangeRequest {
  const { copies, printers, due, importance, mayChange, duration_h } = wanted
  const note = wanted.note.trim()
  const tools = toolsTold(wanted, row.tools ?? [])
  return {
    copies,
    tools: tools.length > 0 ? tools : null,
    printers: printers.length > 0 ? printers : null,
    due: due === '' ? null : momentOf(due),
    importance: importance === 0 ? null : importance,
    changes: mayChange ? { ...row.changes, ...changesOf(wanted) } : null,
    duration_h,
    note: note === '' ? null : note,
  }
}

const changesOf = ({ layers }: WantedPrint): NonNullable<WaitingRowJson['changes']> => {
  const ranges = layers.trim() === '' ? null : parseLayers(layers, null)
  return ranges?.ok === true ? { after_layers: ranges.value } : {}
}
