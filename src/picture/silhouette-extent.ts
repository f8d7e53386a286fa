import type { Silhouette } from '../print/index.ts'

/** What a silhouette fills, in the coordinates of the print, mm. */
export interface SilhouetteExtent {
  readonly left: number
  readonly right: number
  /** Highest edge that is filled, above the bed at 0. */
  readonly top: number
}

/** Leftmost and rightmost edge of what is filled, and its top; all at the grid's left, 0, if empty. */
export function silhouetteExtent(silhouette: Silhouette): SilhouetteExtent {
  const { columns, rows, bits, cell_mm, row_mm, left_mm, bottom_mm } = silhouette
  let [left, right, top] = [columns, 0, 0]
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (bits[row * columns + column] === 0) continue
      left = Math.min(left, column)
      right = Math.max(right, column + 1)
      top = row + 1
    }
  }
  return {
    left: left_mm + Math.min(left, right) * cell_mm,
    right: left_mm + right * cell_mm,
    top: top === 0 ? 0 : bottom_mm + top * row_mm,
  }
}
