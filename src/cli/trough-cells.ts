/** Cells of a drawing that one bar takes: from the first to before the last. */
export interface CellSpan {
  readonly from: number
  readonly to: number
}

/**
 * Bars that lie one behind the other, in cells: each where it lies to scale, and none without a cell of its
 * own, as far as there are cells. For that bars are moved to the right, and at the end of the scale to the left.
 *
 * @param lengths - in cells, ≥ 0
 * @param cells - there are so many
 */
export const cellSpans = (lengths: readonly number[], cells: number): readonly CellSpan[] => {
  let at = 0
  let end = 0
  const spans = lengths.map((length): CellSpan => {
    const from = Math.max(end, Math.round(at))
    at += length
    end = Math.max(from + 1, Math.round(at))
    return { from, to: end }
  })
  let room = cells
  return spans
    .toReversed()
    .map(({ from, to }): CellSpan => {
      const last = Math.min(to, room)
      room = Math.max(0, Math.min(from, last - 1))
      return { from: room, to: last }
    })
    .toReversed()
}
