import type { DrawAlternative } from './draw-alternative.ts'

/** A reel change that the file itself asks for. */
export interface PlannedChange {
  /** Where it stands in the machine code. */
  readonly byte: number
  /** Draw of each tool (index = tool) reached there, mm, by one way to read the file. */
  readonly draw_mm: ArrayLike<number>
}

/** The reel changes of a file, in the order of the print. */
export interface PlannedChanges {
  readonly changes: readonly PlannedChange[]
  /** Label of the alternative by which the changes know what is drawn. */
  readonly readAs: string
}

/**
 * The draw of one part of a print, between two planned reel changes. Rows and layers before it draw
 * nothing, those after it nothing more.
 *
 * @param stretch - from 1, the part up to the first change, to one more than there are changes
 */
export const drawOfStretch = (
  draw: readonly DrawAlternative[],
  { changes, readAs }: PlannedChanges,
  tool: number,
  stretch: number,
): readonly DrawAlternative[] => {
  const begin = changes[stretch - 2]
  const end = changes[stretch - 1]
  return draw.map((alternative) => {
    const { label, peak_mm, startMacro_mm: macro, curve, layerEnd_mm } = alternative
    // Of the other readings the curve knows it, to its own fineness: then the part is rather too long.
    const reached = (change: PlannedChange, row: 'before' | 'behind'): number =>
      label === readAs ? (change.draw_mm[tool] ?? 0) : drawAt(alternative, change.byte, row)
    const from = begin === undefined ? 0 : reached(begin, 'before')
    const to = end === undefined ? peak_mm : reached(end, 'behind')
    // A layer that ends where the part begins is none of its own.
    const firstLayer = layerEnd_mm ? layerEnd_mm.findIndex((end_mm) => end_mm > from) + 1 : 0
    const inside = (value: number): number => Math.min(Math.max(value - from, 0), to - from)
    return {
      ...alternative,
      peak_mm: to - from,
      ...(macro !== undefined && { startMacro_mm: inside(macro) }),
      ...(curve && { curve: { ...curve, draw_mm: curve.draw_mm.map(inside) } }),
      ...(layerEnd_mm && { layerEnd_mm: layerEnd_mm.map(inside) }),
      ...(begin !== undefined && firstLayer > 0 && { firstLayer }),
    }
  })
}

const drawAt = (
  { curve, peak_mm }: DrawAlternative,
  byte: number,
  row: 'before' | 'behind',
): number => {
  if (!curve) return row === 'before' ? 0 : peak_mm
  const behind = curve.byte.findIndex((each) => each >= byte)
  if (row === 'behind') return behind < 0 ? peak_mm : (curve.draw_mm[behind] ?? peak_mm)
  const before = behind < 0 ? curve.byte.length - 1 : behind - 1
  return before < 0 ? 0 : (curve.draw_mm[before] ?? 0)
}
