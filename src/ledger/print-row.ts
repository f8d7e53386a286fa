import type { PrintRowJson } from '../contract/index.ts'
import type { FamilyReading, FirmwareFamilyId, Layers, PrintReading } from '../print/index.ts'

/** What of a reading is kept of a print. */
export type KeptReading = Pick<PrintReading, 'families' | 'layers'>

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

/** A print as it is kept. `readingOfRow` gives the reading back, every number bit by bit. */
export const printRowOf = (
  { families, layers }: KeptReading,
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
  },
})

/** The reading of a print that was kept, in the columns that the verdict takes. */
export const readingOfRow = ({ families, layers }: PrintRowJson): KeptReading => ({
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
        },
      })),
    }),
  ),
  layers: layersOfRow(layers),
})

const layersOfRow = (row: PrintRowJson['layers']): Layers => ({
  count: row.count,
  passes: row.passes,
  spiral: row.spiral,
  step_mm: row.step_mm,
  height_mm: Float64Array.from(row.height_mm),
  endByte: Float64Array.from(row.end_byte),
  endLine: Float64Array.from(row.end_line),
})
