import type { PrintReading, Stop } from '../print/index.ts'
import type { DrawAlternative } from '../verdict/index.ts'
import { usageFault } from './fault.ts'
import { sayCount } from './say.ts'

/** The reel changes that the file itself asks for, in the order of the print. */
export const plannedChanges = ({ stops }: PrintReading): readonly Stop[] =>
  stops.filter(({ kind }) => kind === 'change')

/**
 * The draw of one part of a print, between two planned reel changes. Rows and layers before it draw
 * nothing, those after it nothing more.
 *
 * @param stretch - 1 is the part up to the first change
 * @throws Fault `stretch_out_of_range`
 */
export const drawOfStretch = (
  draw: readonly DrawAlternative[],
  changes: readonly Stop[],
  tool: number,
  stretch: number,
): readonly DrawAlternative[] => {
  if (stretch > changes.length + 1) {
    throw usageFault(
      'stretch_out_of_range',
      `--stretch: the file plans ${sayCount(changes.length, 'reel change')}, so it has ${sayCount(changes.length + 1, 'part')}, not ${stretch}.`,
      '--stretch',
    )
  }
  const begin = changes[stretch - 2]
  const end = changes[stretch - 1]
  return draw.map((alternative, place) => {
    const { peak_mm, startMacro_mm: macro, curve, layerEnd_mm } = alternative
    // The stop knows the draw of the first reading; of the others the curve does.
    const reached = (stop: Stop): number =>
      place === 0 ? (stop.draw_mm[tool] ?? 0) : drawAt(alternative, stop.byte)
    const from = begin === undefined ? 0 : reached(begin)
    const to = end === undefined ? peak_mm : reached(end)
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

const drawAt = ({ curve, peak_mm }: DrawAlternative, byte: number): number => {
  if (!curve) return peak_mm
  const after = curve.byte.findIndex((each) => each >= byte)
  return after < 0 ? peak_mm : (curve.draw_mm[after] ?? peak_mm)
}
