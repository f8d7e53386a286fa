import { DomainError } from '../units/index.ts'
import type { DrawAlternative } from '../verdict/index.ts'
import type { PlannedChanges, RunningDraw } from './slate.ts'

/** A place in a print where a reel may begin, be changed or end. */
export interface ChangeNode {
  /** Layer after which it lies: 0 the beginning, null the end. */
  readonly afterLayer: number | null
  /** Draw reached there under each reading of the file, heaviest first. */
  readonly drawn: readonly { readonly weight: number; readonly length_mm: number }[]
}

/**
 * The beginning, the layer ends after which a change may be planned, and the end.
 *
 * @param who - for the message
 * @throws DomainError `no_draw`, `weight_not_positive`, `no_layers` where changes are allowed and not
 *   every reading of the file knows the same layers
 */
export const changeNodes = (
  draw: readonly DrawAlternative[],
  changes: PlannedChanges | undefined,
  who: string,
): readonly ChangeNode[] => {
  const { begin, after, end, likeliest } = nodesOf(draw, who)
  if (!changes) return [begin, end]
  const ends = layerEnds(draw, likeliest, who)
  const allowed = [...new Set(changes.afterLayers ?? Array.from(ends, (_, i) => i + 1))].filter(
    // Before the first and after the last feed there is nothing to change for.
    (layer) => ends[layer - 1]! > 0 && ends[layer - 1]! < likeliest.peak_mm,
  )
  return [begin, ...allowed.toSorted((a, b) => a - b).map(after), end]
}

/**
 * Where a part of a print begins and ends that was cut as it is told, whether anything is drawn in it or not.
 *
 * @param part - 1-based layers that the print has; from its beginning, and to its end, unless given
 * @throws DomainError as `changeNodes`
 */
export const partNodes = (
  draw: readonly DrawAlternative[],
  { afterLayer, untilLayer }: Pick<RunningDraw, 'afterLayer' | 'untilLayer'>,
  who: string,
): readonly [from: ChangeNode, to: ChangeNode] => {
  const { begin, after, end, likeliest } = nodesOf(draw, who)
  if (afterLayer !== undefined || untilLayer !== undefined) layerEnds(draw, likeliest, who)
  return [
    afterLayer === undefined ? begin : after(afterLayer),
    untilLayer === undefined ? end : after(untilLayer),
  ]
}

interface Nodes {
  readonly begin: ChangeNode
  /** Of draws that know their layers. */
  readonly after: (layer: number) => ChangeNode
  readonly end: ChangeNode
  readonly likeliest: DrawAlternative
}

const nodesOf = (draw: readonly DrawAlternative[], who: string): Nodes => {
  if (draw.length === 0) throw new DomainError('no_draw', `${who} has no draw`)
  const total = draw.reduce((sum, { weight }) => sum + weight, 0)
  if (!(total > 0 && draw.every(({ weight }) => weight > 0))) {
    throw new DomainError('weight_not_positive', `${who} has a reading without weight`)
  }
  const sorted = draw.toSorted((a, b) => b.weight - a.weight)
  const at = (lengthOf: (alternative: DrawAlternative) => number): ChangeNode['drawn'] =>
    sorted.map((one) => ({ weight: one.weight / total, length_mm: lengthOf(one) }))
  return {
    begin: { afterLayer: 0, drawn: at(() => 0) },
    after: (layer) => ({
      afterLayer: layer,
      drawn: at(({ layerEnd_mm }) => layerEnd_mm![layer - 1]!),
    }),
    end: { afterLayer: null, drawn: at(({ peak_mm }) => peak_mm) },
    likeliest: sorted[0]!,
  }
}

/** Draw at the layer ends of the likeliest reading; every one knows as many. */
const layerEnds = (
  draw: readonly DrawAlternative[],
  { layerEnd_mm: ends }: DrawAlternative,
  who: string,
): Float64Array => {
  if (ends === undefined || draw.some(({ layerEnd_mm }) => layerEnd_mm?.length !== ends.length)) {
    throw new DomainError('no_layers', `${who} may be changed, but its layers are not known`)
  }
  return ends
}
