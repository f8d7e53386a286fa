import type { StoppedAtJson } from '../contract/index.ts'
import type { Layers, ToolReading } from '../print/index.ts'
import {
  accept,
  formatLength,
  type Measured,
  measured,
  millimetres,
  type Outcome,
  refuse,
  type Share,
  share,
} from '../units/index.ts'

/** What of a tool's reading tells how much was fed up to a layer. */
export type FedOf = Pick<ToolReading, 'peak_mm' | 'startMacro_mm' | 'layerEnd_mm'>

/** What of the layers tells which one stands at a height. */
export type HeightsOf = Pick<Layers, 'count' | 'spiral' | 'step_mm' | 'height_mm'>

/** Standard uncertainty of a share somebody read off a display: common practice, no source. */
export const usualShareDoubt = 0.01

/**
 * The share of a tool's draw that was fed when a print ended before its end.
 *
 * A layer: anywhere between the end of the layer before and its own end, as likely here as there, so
 * u is the width over √12. A height: as the layer that stands there, the next higher one within half
 * a step; in a spiral the turn that begins at or below it.
 *
 * @param shareDoubt - u of a share given as such, from how it was written; `usualShareDoubt` unless
 *   given
 * @returns refusals `draws_nothing`, `beyond_print`, `height_ambiguous`, `share_above_one`,
 *   `stop_missing`
 * @see JCGM 100:2008, 4.3.7 (rectangular distribution; clause from memory)
 */
export const shareFed = (
  tool: FedOf,
  layers: HeightsOf,
  { layer, height_mm, share: part }: StoppedAtJson,
  shareDoubt: number = usualShareDoubt,
): Outcome<Measured<Share>> => {
  if (!(tool.peak_mm > 0)) {
    return refuse({
      code: 'draws_nothing',
      message: 'This tool draws nothing in the print, so no share of it was fed.',
    })
  }
  if (part !== undefined) {
    if (part >= 0 && part <= 1) return accept(measured(share(part), shareDoubt))
    return refuse({
      code: 'share_above_one',
      message: `A print can not end at ${part} of itself. Give a share from 0 to 1.`,
      expected: '0 to 1',
      received: String(part),
    })
  }
  if (layer !== undefined) return upToLayer(tool, layers, layer)
  if (height_mm === undefined) {
    return refuse({
      code: 'stop_missing',
      message: 'Where the print ended is missing. Give a layer, a height or a share.',
      expected: 'a layer, a height or a share',
    })
  }
  const found = layerAt(layers, height_mm)
  return found.ok ? upToLayer(tool, layers, found.value) : found
}

const upToLayer = (
  { peak_mm, startMacro_mm, layerEnd_mm }: FedOf,
  { count }: HeightsOf,
  layer: number,
): Outcome<Measured<Share>> => {
  const end = layerEnd_mm[layer - 1]
  if (!(layer >= 1 && layer <= count) || end === undefined) {
    return refuse({
      code: 'beyond_print',
      message: `The print has no layer ${layer}: it has ${count}. Look at the number again.`,
      expected: `1 to ${count}`,
      received: String(layer),
    })
  }
  const before = layer === 1 ? startMacro_mm : layerEnd_mm[layer - 2]!
  const width = (end - before) / peak_mm
  return accept(measured(share((before + end) / 2 / peak_mm), width / Math.sqrt(12)))
}

const shown = (height: number): string => formatLength(measured(millimetres(height)))

/** The layer that stands at a height; 1-based. */
const layerAt = (
  { height_mm: heights, spiral, step_mm }: HeightsOf,
  height: number,
): Outcome<number> => {
  const top = heights.reduce((most, each) => Math.max(most, each), 0)
  const above = spiral ? step_mm : step_mm / 2
  if (!(height >= 0 && height <= top + above)) {
    return refuse({
      code: 'beyond_print',
      message: `The print does not reach ${shown(height)}: its highest layer stands at ${shown(top)}. Measure again, or give the layer.`,
      expected: `0 to ${shown(top)}`,
      received: `${height} mm`,
    })
  }
  const found = passesOf(heights)
    .filter(([, to]) => height <= heights[to - 1]! + above)
    .map(([from, to]) => layerInPass(heights, from, to, spiral ? height : height - above, spiral))
  const [one] = found
  if (found.length === 1 && one !== undefined) return accept(one)
  return refuse({
    code: 'height_ambiguous',
    message: `The print passes ${shown(height)} ${found.length} times, in layers ${found.join(', ')}: its objects are printed one after another. Give the layer.`,
    expected: 'a layer',
    received: `${height} mm`,
  })
}

/** Stretches of layers that only climb, as [first, one past the last], 0-based. */
const passesOf = (heights: Float64Array): readonly (readonly [number, number])[] => {
  const passes: (readonly [number, number])[] = []
  let from = 0
  for (let i = 1; i <= heights.length; i++) {
    if (i < heights.length && heights[i]! >= heights[i - 1]!) continue
    passes.push([from, i])
    from = i
  }
  return passes
}

const layerInPass = (
  heights: Float64Array,
  from: number,
  to: number,
  height: number,
  spiral: boolean,
): number => {
  const own = heights.subarray(from, to)
  // A turn of a spiral begins at its height, any other layer ends there.
  const place = spiral
    ? own.findLastIndex((each) => each <= height)
    : own.findIndex((each) => each >= height)
  return from + Math.max(0, place) + 1
}
