import type { PrintRowJson, PrintRowTimeJson } from '../contract/index.ts'
import type {
  CornerRule,
  FamilyReading,
  FirmwareFamilyId,
  Layers,
  PrintReading,
  PrintTime,
  Stop,
  WaitKind,
} from '../print/index.ts'

/** What is kept of a stop; only reel changes are. */
export type KeptStop = Pick<Stop, 'kind' | 'byte' | 'draw_mm'>

/** What of a reading is kept of a print. */
export type KeptReading = Pick<PrintReading, 'families' | 'layers'> & {
  /** In the order of the print; absent of one kept before they were. */
  readonly stops?: readonly KeptStop[]
  /** Null or absent where the times of the print are not known. */
  readonly time?: PrintTime | null
}

/** What a print's row has beside the reading of its file. */
export interface PrintHead {
  /** SHA-256 of the file, with `/NAME` for a member of a zip. */
  readonly id: string
  /** Name of the file. */
  readonly file: string
  /** Size of the file. */
  readonly bytes: number
  /** Moment of the reading. */
  readonly changed_at: string
}

/** JSON has no −0; adding 0 makes it 0 and leaves every other number what it is, bit by bit. */
const column = (numbers: Iterable<number>): number[] => Array.from(numbers, (each) => each + 0)

/** Times are kept to a tenth of a second: printers do not keep to more. */
const tenths = (seconds: number): number => Math.round(seconds * 10) / 10

const timeColumn = (times: Float64Array): number[] => Array.from(times, tenths)

/** A print as it is kept. `readingOfRow` gives the reading back, every number bit by bit but times. */
export const printRowOf = (
  { families, layers, stops, time }: KeptReading,
  { id, file, bytes, changed_at }: PrintHead,
): PrintRowJson => ({
  kind: 'print',
  id,
  changed_at,
  file,
  bytes,
  families: families.map((group) => ({
    families: [...group.families],
    tools: group.tools.map(({ tool, peak_mm, net_mm, startMacro_mm, layerEnd_mm, curve }) => ({
      tool,
      peak_mm: peak_mm + 0,
      net_mm: net_mm + 0,
      start_macro_mm: startMacro_mm + 0,
      layer_end_mm: column(layerEnd_mm),
      curve: {
        draw_mm: column(curve.draw_mm),
        height_mm: column(curve.height_mm),
        layer: column(curve.layer),
        byte: column(curve.byte),
        ...(curve.time_s && { time_s: timeColumn(curve.time_s) }),
      },
    })),
  })),
  layers: {
    count: layers.count,
    passes: layers.passes,
    spiral: layers.spiral,
    step_mm: layers.step_mm + 0,
    height_mm: column(layers.height_mm),
    end_byte: column(layers.endByte),
    end_line: column(layers.endLine),
    ...(layers.endTime_s && { end_time_s: timeColumn(layers.endTime_s) }),
  },
  ...(stops && { changes: stops.filter(isChange).map(changeOf) }),
  ...(time && { time: timeOf(time) }),
})

const isChange = ({ kind }: KeptStop): boolean => kind === 'change'

const changeOf = ({ byte, draw_mm }: KeptStop): NonNullable<PrintRowJson['changes']>[number] => ({
  byte,
  draw_mm: column(draw_mm),
})

const timeOf = ({ total_s, family, corner, waits }: PrintTime): PrintRowTimeJson => ({
  planned_s: tenths(total_s),
  family,
  corner,
  waits: waits.map(({ kind, at_s, times }) => ({ kind, at_s: tenths(at_s), times })),
})

/** The reading of a print that was kept, in the columns that the verdict takes. */
export const readingOfRow = ({ families, layers, changes, time }: PrintRowJson): KeptReading => ({
  families: families.map(
    (group): FamilyReading => ({
      // A family that this version does not know is only shown.
      families: group.families as readonly FirmwareFamilyId[],
      tools: group.tools.map(({ tool, peak_mm, net_mm, start_macro_mm, layer_end_mm, curve }) => ({
        tool,
        net_mm,
        peak_mm,
        startMacro_mm: start_macro_mm,
        layerEnd_mm: Float64Array.from(layer_end_mm),
        curve: {
          draw_mm: Float64Array.from(curve.draw_mm),
          height_mm: Float64Array.from(curve.height_mm),
          layer: Int32Array.from(curve.layer),
          byte: Float64Array.from(curve.byte),
          ...(curve.time_s && { time_s: Float64Array.from(curve.time_s) }),
        },
      })),
    }),
  ),
  layers: layersOfRow(layers),
  ...(changes && {
    stops: changes.map(({ byte, draw_mm }) => ({
      kind: 'change',
      byte,
      draw_mm: Float64Array.from(draw_mm),
    })),
  }),
  ...(time && {
    time: {
      total_s: time.planned_s,
      family: time.family as FirmwareFamilyId,
      corner: time.corner as CornerRule,
      waits: time.waits.map(({ kind, ...wait }) => ({ ...wait, kind: kind as WaitKind })),
    },
  }),
})

const layersOfRow = (row: PrintRowJson['layers']): Layers => ({
  count: row.count,
  passes: row.passes,
  spiral: row.spiral,
  step_mm: row.step_mm,
  height_mm: Float64Array.from(row.height_mm),
  endByte: Float64Array.from(row.end_byte),
  endLine: Float64Array.from(row.end_line),
  ...(row.end_time_s && { endTime_s: Float64Array.from(row.end_time_s) }),
})
