/**
 * The print seen from the side: which cells of an upright grid its extruding moves pass through.
 *
 * Cells are measured in the coordinates that the file names, as layers are. A row that no move runs
 * in, between rows that have some or between them and the bed, has taken the cells of the row above:
 * what is laid reaches down to what it lies on.
 *
 * @see docs/method/silhouette.md
 */
export interface Silhouette {
  /** Along which the columns lie: that along which the print is wider, X when neither is. */
  readonly axis: 'x' | 'y'
  /** 1 to 256. */
  readonly columns: number
  /** 1 to 256. */
  readonly rows: number
  /** Width of a cell, mm: 1/8 times a power of two. */
  readonly cell_mm: number
  /** Height of a cell, mm: 1/32 times a power of two, no less than the layers' usual step. */
  readonly row_mm: number
  /** Coordinate at which the first column begins, mm. */
  readonly left_mm: number
  /** Height at which the lowest row begins, mm: the bed, 0, or below it where the print goes there. */
  readonly bottom_mm: number
  /**
   * One byte a cell, row after row from the bottom, 0 where nothing is. Bit n is set where tool n
   * draws; bit 7 stands for tool 7 and all above.
   */
  readonly bits: Uint8Array
}

/** The bit of a tool in `Silhouette.bits`. */
export const toolBit = (tool: number): number => 1 << Math.min(tool, 7)
