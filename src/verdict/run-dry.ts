import { type Millimetres, millimetres, type Share, share } from '../units/index.ts'
import type { DrawAlternative } from './draw-alternative.ts'
import { drawWithChance, type MarginModel } from './margin.ts'

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

/** The run-dry interval of one alternative. */
export const runDryOf = (model: MarginModel, alternative: DrawAlternative): RunDry => ({
  early: pointAt(alternative, drawWithChance(model, 0.95)),
  likely: pointAt(alternative, drawWithChance(model, 0.5)),
  late: pointAt(alternative, drawWithChance(model, 0.05)),
})

/** The place where the draw first reaches a length, or null when it never does. */
const pointAt = ({ curve, peak_mm }: DrawAlternative, draw: number): RunDryPoint | null => {
  if (draw >= peak_mm) return null
  const reached = { draw_mm: millimetres(draw), share: share(draw / peak_mm) }
  const nowhere = { ...reached, layer: null, height_mm: null, byte: null }
  if (!curve || curve.draw_mm.length === 0) return nowhere
  // At a draw of 0 the reel gives out with the first feed, not at a row before it.
  const row = firstAtLeast(curve.draw_mm, draw === 0 ? Number.MIN_VALUE : draw)
  return {
    ...reached,
    layer: curve.layer[row] ?? null,
    height_mm: curve.height_mm[row] ?? null,
    byte: curve.byte[row] ?? null,
  }
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
