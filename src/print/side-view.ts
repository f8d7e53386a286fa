import { CellRange, cellsAcross } from './cell-range.ts'

/** Where cells begin, mm: a third of a usual bead wide, and lower than any layer. */
const smallest = { width: 1 / 8, height: 1 / 32 } as const
/** Places from here on are no print's, mm; a power of two, so that no cell lies across. */
const far = 2 ** 40

/** A column holds its left edge. */
const columnOf = (place: number, size: number): number => Math.floor(place / size)
/** A row holds its upper edge: what is laid with the nozzle at a height lies below it. */
const rowOf = (height: number, size: number): number => Math.ceil(height / size) - 1

/** Whether a point seen from the side is one that a print may have. */
export const onGrid = (place: number, height: number): boolean =>
  place >= -far && place < far && height > -far && height <= far

/**
 * One side view of the print in constant memory: one byte a cell, whose bits are the tools.
 *
 * A cell lies in the table at the last eight bits of its column and row, so nothing moves while the
 * print grows; only when cells double is the table written anew.
 *
 * A line is cut at the edges of rows, at places that are reckoned the same way whatever the size of
 * cells, so that cells which have doubled are those that large cells would have been from the start.
 */
export class SideView {
  readonly columns: CellRange = new CellRange(smallest.width, columnOf, [
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ])
  /** From the bed. */
  readonly rows: CellRange = new CellRange(smallest.height, rowOf, [0, -1])
  #cells = new Uint8Array(cellsAcross * cellsAcross)

  /** mm. */
  get width(): number {
    return this.columns.count * this.columns.size
  }

  /** Bits of a cell inside the two ranges. */
  at(column: number, row: number): number {
    return this.#cells[place(column, row)] as number
  }

  /** Marks a cell inside the two ranges. */
  mark(column: number, row: number, bit: number): void {
    const at = place(column, row)
    this.#cells[at] = (this.#cells[at] as number) | bit
  }

  /** Marks what a straight way passes whose ends are on the grid. */
  line(
    fromPlace: number,
    fromHeight: number,
    toPlace: number,
    toHeight: number,
    bit: number,
  ): void {
    this.#include(fromPlace, fromHeight, toPlace, toHeight)
    if (fromHeight <= toHeight) this.#rise(fromPlace, fromHeight, toPlace, toHeight, bit)
    else this.#rise(toPlace, toHeight, fromPlace, fromHeight, bit)
  }

  #rise(
    fromPlace: number,
    fromHeight: number,
    toPlace: number,
    toHeight: number,
    bit: number,
  ): void {
    const first = this.rows.cellOf(fromHeight)
    const last = this.rows.cellOf(toHeight)
    const slope = (toPlace - fromPlace) / (toHeight - fromHeight)
    const least = Math.min(fromPlace, toPlace)
    const most = Math.max(fromPlace, toPlace)
    let enters = fromPlace
    for (let row = first; row <= last; row++) {
      const edge = (row + 1) * this.rows.size
      const leaves =
        row === last
          ? toPlace
          : Math.min(most, Math.max(least, fromPlace + (edge - fromHeight) * slope))
      this.#run(row, enters, leaves, bit)
      enters = leaves
    }
  }

  #run(row: number, a: number, b: number, bit: number): void {
    const last = this.columns.cellOf(Math.max(a, b))
    for (let column = this.columns.cellOf(Math.min(a, b)); column <= last; column++) {
      this.mark(column, row, bit)
    }
  }

  #include(fromPlace: number, fromHeight: number, toPlace: number, toHeight: number): void {
    const { columns, rows } = this
    const before = [columns.first, columns.last, rows.first, rows.last] as const
    const wider = columns.include(fromPlace, toPlace)
    const higher = rows.include(fromHeight, toHeight)
    if (wider > 1 || higher > 1) this.#fold(before, wider, higher)
  }

  #fold(
    [left, right, bottom, top]: readonly [number, number, number, number],
    wider: number,
    higher: number,
  ): void {
    const cells = this.#cells
    this.#cells = new Uint8Array(cells.length)
    for (let row = bottom; row <= top; row++) {
      for (let column = left; column <= right; column++) {
        const bits = cells[place(column, row)] as number
        if (bits !== 0) this.mark(Math.floor(column / wider), Math.floor(row / higher), bits)
      }
    }
  }

  /** Makes rows no lower than a step between layers, mm, so that none is left out for being low. */
  coarsen(step: number): void {
    const { columns, rows } = this
    while (rows.size < Math.min(step, far)) {
      const before = [columns.first, columns.last, rows.first, rows.last] as const
      rows.double()
      this.#fold(before, 1, 2)
    }
  }

  /** The cells of both ranges, row after row from the bottom. */
  cells(): Uint8Array {
    const { columns, rows } = this
    const cells = new Uint8Array(columns.count * rows.count)
    for (let row = 0; row < rows.count; row++) {
      for (let column = 0; column < columns.count; column++) {
        cells[row * columns.count + column] = this.at(columns.first + column, rows.first + row)
      }
    }
    return cells
  }
}

const last = cellsAcross - 1
const place = (column: number, row: number): number => (row & last) * cellsAcross + (column & last)
