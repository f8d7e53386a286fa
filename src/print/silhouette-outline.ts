import type { Silhouette } from './silhouette.ts'

/** Directions along the edges of cells, turning left. */
const ways = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const
/** Where an outline may go on: left where two cells touch at a corner, so that they stay apart. */
const turns = [1, 0, 3] as const

/**
 * The outline of a silhouette as the data of an SVG path, in mm: X as in the print, and Y downwards
 * as SVG has it, so that a height h lies at −h. Outlines of what is filled run the one way and those
 * of holes the other, so either fill rule does.
 *
 * @param tools - the tools to draw, by the bits of `Silhouette.bits`; all when left out
 * @returns an empty string where none of them draws
 */
export function silhouetteOutline(silhouette: Silhouette, tools = 0xff): string {
  const edges = new Edges(silhouette, tools)
  const x = (column: number): number => silhouette.left_mm + column * silhouette.cell_mm
  // Adding 0 makes −0 the 0 it is.
  const y = (row: number): number => -(silhouette.bottom_mm + row * silhouette.row_mm) + 0
  let path = ''
  for (let corner = edges.next(); corner !== null; corner = edges.next()) {
    let [column, row] = corner
    path += `M${x(column)} ${y(row)}`
    let way = edges.take(column, row, 0)
    while (way >= 0) {
      const step = ways[way] as (typeof ways)[number]
      column += step[0]
      row += step[1]
      const turned = edges.take(column, row, way)
      if (turned !== way && turned >= 0) path += step[0] === 0 ? `V${y(row)}` : `H${x(column)}`
      way = turned
    }
    path += 'Z'
  }
  return path
}

/** Edges between what is filled and what is not, directed so that the filled lies to the left. */
class Edges {
  readonly #width: number
  /** For each corner of a cell the directions in which an edge leaves it, as bits. */
  readonly #leaving: Uint8Array
  #scanned = 0

  constructor({ columns, rows, bits }: Silhouette, tools: number) {
    this.#width = columns + 1
    this.#leaving = new Uint8Array(this.#width * (rows + 1))
    const filled = (column: number, row: number): boolean =>
      column >= 0 && column < columns && ((bits[row * columns + column] ?? 0) & tools) !== 0
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        if (!filled(column, row)) continue
        if (!filled(column, row - 1)) this.#add(column, row, 0)
        if (!filled(column + 1, row)) this.#add(column + 1, row, 1)
        if (!filled(column, row + 1)) this.#add(column + 1, row + 1, 2)
        if (!filled(column - 1, row)) this.#add(column, row + 1, 3)
      }
    }
  }

  #add(column: number, row: number, way: number): void {
    const at = row * this.#width + column
    this.#leaving[at] = (this.#leaving[at] as number) | (1 << way)
  }

  /** The lowest corner left, and of those the one farthest left: there the outline turns. */
  next(): [column: number, row: number] | null {
    while (this.#scanned < this.#leaving.length && this.#leaving[this.#scanned] === 0) {
      this.#scanned++
    }
    if (this.#scanned === this.#leaving.length) return null
    return [this.#scanned % this.#width, Math.floor(this.#scanned / this.#width)]
  }

  /** Takes the edge that goes on from a corner, and says in which direction; −1 when none is left. */
  take(column: number, row: number, way: number): number {
    const at = row * this.#width + column
    for (const turn of turns) {
      const on = (way + turn) % 4
      const bit = 1 << on
      if (((this.#leaving[at] as number) & bit) === 0) continue
      this.#leaving[at] = (this.#leaving[at] as number) & ~bit
      return on
    }
    return -1
  }
}
