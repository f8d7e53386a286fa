import type { DrawAlternative } from './draw-alternative.ts'

/**
 * The draw of what is left of a print once a layer is done, as for a reel that takes over there.
 * Rows and layers up to it draw nothing.
 *
 * @param layer - 1-based, the last that is done; 0 is the whole print. Past the last layer, or of an
 *   alternative that knows no layers, nothing is left
 */
export const drawAfterLayer = (
  draw: readonly DrawAlternative[],
  layer: number,
): readonly DrawAlternative[] =>
  draw.map((alternative) => {
    const { peak_mm, startMacro_mm: macro, curve, layerEnd_mm } = alternative
    if (layer <= 0) return alternative
    const from = layerEnd_mm?.[layer - 1] ?? peak_mm
    const after = (value: number): number => Math.max(value - from, 0)
    return {
      ...alternative,
      peak_mm: after(peak_mm),
      ...(macro !== undefined && { startMacro_mm: after(macro) }),
      ...(curve && { curve: { ...curve, draw_mm: curve.draw_mm.map(after) } }),
      ...(layerEnd_mm && { layerEnd_mm: layerEnd_mm.map(after) }),
      firstLayer: layer + 1,
    }
  })
