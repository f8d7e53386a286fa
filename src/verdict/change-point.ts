import type { Layers } from '../print/index.ts'
import type { DrawAlternative } from './draw-alternative.ts'
import { chanceAt } from './margin.ts'
import type { MarginModel } from './margin-model.ts'

/** The last layer end at which changing reels is still safe. */
export interface ChangePoint {
  /** The layer that is still finished, 1-based. */
  readonly layer: number
  /** Height at which it is drawn, mm; null when the layers' heights are not known. */
  readonly height_mm: number | null
  /** Draw reached at its end, mm, by the likeliest reading. */
  readonly draw_mm: number
  /** Where the next layer begins: bytes from the start of the machine code. */
  readonly byte: number | null
  /** Planned time at which it ends, waits not counted, s; null where it is not known. */
  readonly planned_s: number | null
  /** Layer from which on the part judged feeds, 1-based: the reel is not on before it. */
  readonly firstLayer: number
}

/**
 * The last layer end that is reached with the confidence given, whichever alternative holds.
 *
 * @param draw - normalised, heaviest first
 * @returns null when not even the first layer of the part judged is that sure, or when nothing is
 *   known of layers
 */
export const changePoint = (
  model: MarginModel,
  draw: readonly DrawAlternative[],
  layers: Layers | undefined,
  confidence: number,
): ChangePoint | null => {
  const ends = draw.map(({ layerEnd_mm }) => layerEnd_mm)
  const [likeliest] = ends
  if (!likeliest || ends.some((column) => column?.length !== likeliest.length)) return null
  const chance = (layer: number): number =>
    draw.reduce(
      (sum, { weight, layerEnd_mm }) => sum + weight * chanceAt(model, layerEnd_mm![layer]!),
      0,
    )
  // The draw never falls from layer to layer, so the chance never rises: halve.
  let safe = 0
  let beyond = likeliest.length + 1
  while (beyond - safe > 1) {
    const middle = (safe + beyond) >> 1
    if (chance(middle - 1) >= confidence) safe = middle
    else beyond = middle
  }
  const first = Math.max(1, ...draw.map(({ firstLayer = 1 }) => firstLayer))
  if (safe < first) return null
  return {
    layer: safe,
    height_mm: layers?.height_mm[safe - 1] ?? null,
    draw_mm: likeliest[safe - 1]!,
    byte: layers?.endByte[safe - 1] ?? null,
    planned_s: layers?.endTime_s?.[safe - 1] ?? null,
    firstLayer: first,
  }
}
