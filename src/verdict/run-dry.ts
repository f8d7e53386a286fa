import type { DrawCurve, Layers } from '../print/index.ts'
import { type Millimetres, millimetres, type Share, share } from '../units/index.ts'
import type { DrawAlternative } from './draw-alternative.ts'
import { drawWithChance } from './margin.ts'
import type { MarginModel } from './margin-model.ts'

/** A place in the print where the reel ends. Without a draw curve only draw and share are known. */
export interface RunDryPoint {
  readonly draw_mm: Millimetres
  /** Share of the print's draw. */
  readonly share: Share
  /** Layer in progress, 1-based; 0 before the first. */
  readonly layer: number | null
  readonly height_mm: number | null
  /** Bytes from the start of the machine code. */
  readonly byte: number | null
  /** Planned time of the print, waits not counted, s; null where it is not known. */
  readonly planned_s: number | null
}

/** Where the reel runs dry; null where it lasts past the end of the print. */
export interface RunDry {
  /** It runs out before this with a chance of 5 %. */
  readonly early: RunDryPoint | null
  /** As likely before as after. */
  readonly likely: RunDryPoint | null
  /** It runs out before this with a chance of 95 %. */
  readonly late: RunDryPoint | null
}

/**
 * The run-dry interval of one alternative.
 *
 * @param layers - heights and ends of the print's layers, where they are known
 */
export const runDryOf = (
  model: MarginModel,
  alternative: DrawAlternative,
  layers: Layers | undefined,
): RunDry => {
  const at = (chance: number): RunDryPoint | null =>
    pointAt(alternative, layers, drawWithChance(model, chance))
  return { early: at(0.95), likely: at(0.5), late: at(0.05) }
}

/** The place where the draw first reaches a length, or null when it never does. */
const pointAt = (
  alternative: DrawAlternative,
  layers: Layers | undefined,
  draw: number,
): RunDryPoint | null => {
  const { curve, peak_mm } = alternative
  if (draw >= peak_mm) return null
  const reached = { draw_mm: millimetres(draw), share: share(draw / peak_mm) }
  const nowhere = { ...reached, layer: null, height_mm: null, byte: null, planned_s: null }
  if (!curve || curve.draw_mm.length === 0) return nowhere
  // At a draw of 0 the reel gives out with the first feed, not at a row before it.
  const wanted = draw === 0 ? Number.MIN_VALUE : draw
  const row = firstAtLeast(curve.draw_mm, wanted)
  const layer = layerAt(alternative, wanted) ?? curve.layer[row]!
  return {
    ...reached,
    layer,
    height_mm: heightAt(curve, row, wanted, layer, layers),
    byte: byteAt(curve, row, wanted, layer, layers),
    planned_s: timeAt(curve, row, wanted, layer, layers),
  }
}

/**
 * The layer in which a draw is reached: the first whose end has it. Rows of the curve are too far
 * apart to tell where layers are many. Undefined where layer ends are not known.
 */
const layerAt = (
  { layerEnd_mm: ends, startMacro_mm: macro = 0 }: DrawAlternative,
  draw: number,
): number | undefined => {
  if (draw <= macro) return 0
  if (!ends || ends.length === 0) return undefined
  return firstAtLeast(ends, draw) + 1
}

/** Height of the layer; in a spiral, and outside all layers, as the nozzle stands on the curve. */
const heightAt = (
  curve: DrawCurve,
  row: number,
  draw: number,
  layer: number,
  layers: Layers | undefined,
): number => {
  const ofLayer = layers?.height_mm[layer - 1]
  if (ofLayer !== undefined && layers?.spiral !== true) return ofLayer
  return between(curve.draw_mm, curve.height_mm, row, draw)
}

/** Byte between the rows about the draw, inside the layer. */
const byteAt = (
  curve: DrawCurve,
  row: number,
  draw: number,
  layer: number,
  layers: Layers | undefined,
): number => {
  const byte = Math.round(between(curve.draw_mm, curve.byte, row, draw))
  const begin = layers?.endByte[layer - 2] ?? 0
  const end = layers?.endByte[layer - 1] ?? Infinity
  return Math.min(Math.max(byte, begin), end)
}

/** Planned time between the rows about the draw, inside the layer. */
const timeAt = (
  curve: DrawCurve,
  row: number,
  draw: number,
  layer: number,
  layers: Layers | undefined,
): number | null => {
  if (curve.time_s === undefined) return null
  const time = between(curve.draw_mm, curve.time_s, row, draw)
  const begin = layers?.endTime_s?.[layer - 2] ?? 0
  const end = layers?.endTime_s?.[layer - 1] ?? Infinity
  return Math.min(Math.max(time, begin), end)
}

/** A column's value where the draw column reaches a draw, on the straight line between two rows. */
const between = (draws: Float64Array, column: Float64Array, row: number, draw: number): number => {
  const [toDraw, to] = [draws[row]!, column[row]!]
  if (row === 0) return to
  const [fromDraw, from] = [draws[row - 1]!, column[row - 1]!]
  return toDraw > fromDraw ? from + ((to - from) * (draw - fromDraw)) / (toDraw - fromDraw) : to
}

/** First place in an ascending column with at least this value; the last place when none has. */
const firstAtLeast = (column: Float64Array, value: number): number => {
  let low = 0
  let high = column.length - 1
  while (low < high) {
    const middle = (low + high) >> 1
    if (column[middle]! < value) low = middle + 1
    else high = middle
  }
  return low
}
