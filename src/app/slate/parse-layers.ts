import { accept, type Outcome, refuse } from '../../units/index.ts'
import { slateWords } from '../strings/slate-words.ts'

/** First and last of layers, 1-based. */
export type LayerRange = readonly [first: number, last: number]

/**
 * Layers as they are typed: `40`, `12-40`, `12-40, 77`.
 *
 * @param count - layers of the print; null where it is not known
 * @returns ranges in the order typed; `layers_malformed`, `layers_out_of_range`
 */
export const parseLayers = (
  typed: string,
  count: number | null,
): Outcome<readonly LayerRange[]> => {
  const ranges: LayerRange[] = []
  for (const piece of typed.split(/[,;]/)) {
    const [, from, to = from] = /^\s*(\d{1,6})\s*(?:[-–]\s*(\d{1,6})\s*)?$/.exec(piece) ?? []
    if (from === undefined) {
      return refuse({
        code: 'layers_malformed',
        message: slateWords.layersMalformed(piece.trim()),
        received: typed,
      })
    }
    const range: LayerRange = [Number(from), Number(to)]
    if (range[0] < 1 || range[1] < range[0] || (count !== null && range[1] > count)) {
      return refuse({
        code: 'layers_out_of_range',
        message: slateWords.layersOut(count),
        received: typed,
      })
    }
    ranges.push(range)
  }
  return accept(ranges)
}

/** As `parseLayers` takes them. */
export const showLayers = (ranges: readonly LayerRange[]): string =>
  ranges.map(([first, last]) => (first === last ? `${first}` : `${first}-${last}`)).join(', ')
