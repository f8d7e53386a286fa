/** Most cells in one direction; a power of two, so that the place of a cell is its last bits. */
export const cellsAcross = 256

/**
 * Cells of one size in one direction, as many as the print has reached into. They begin at a small
 * size and double when they would be more than `cellsAcross`. Sizes are powers of two times each
 * other, counted from 0, so every cell is two cells of the size before: the size in the end is the
 * smallest with which everything fits, whatever came first.
 */
export class CellRange {
  /** mm. */
  size: number
  first: number
  last: number
  readonly #cellOf: (place: number, size: number) => number

  constructor(
    size: number,
    cellOf: (place: number, size: number) => number,
    [first, last]: readonly [number, number],
  ) {
    this.size = size
    this.first = first
    this.last = last
    this.#cellOf = cellOf
  }

  /** Number of the cell that a place lies in. */
  cellOf(place: number): number {
    return this.#cellOf(place, this.size)
  }

  get count(): number {
    return Math.max(0, this.last - this.first + 1)
  }

  /** Takes two places in, and says by how much cells have grown for it: 1, 2, 4, … */
  include(a: number, b: number): number {
    const size = this.size
    for (;;) {
      const one = this.cellOf(a)
      const other = this.cellOf(b)
      const first = Math.min(this.first, one, other)
      const last = Math.max(this.last, one, other)
      if (last - first < cellsAcross) {
        this.first = first
        this.last = last
        return this.size / size
      }
      this.double()
    }
  }

  double(): void {
    this.size *= 2
    this.first = Math.floor(this.first / 2)
    this.last = Math.floor(this.last / 2)
  }
}
