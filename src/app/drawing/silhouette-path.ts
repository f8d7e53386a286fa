/** A print seen from the side, as the reader gives it. */
export interface SilhouetteBits {
  readonly axis: 'x' | 'y'
  readonly columns: number
  readonly rows: number
  readonly cell_mm: number
  readonly row_mm: number
  readonly left_mm: number
  readonly bottom_mm: number
  /** Row-major from the bottom, one byte a cell; bit n is tool n. */
  readonly bits: Uint8Array
}

/**
 * The cells of some tools as the data of an SVG path, in mm from the left edge, Y downwards from the
 * bed. Equal runs of following rows are joined into one box, so that no seam shows between them.
 *
 * @param tools - bits of the tools wanted
 * @returns an empty string where there are none
 */
export function silhouettePath(silhouette: SilhouetteBits, tools = 0xff): string {
  const { rows, cell_mm, row_mm, bottom_mm } = silhouette
  let path = ''
  /** Runs that reach up to the row at hand, and the row they began in. */
  let open = new Map<string, number>()
  for (let row = 0; row <= rows; row++) {
    const runs = new Set(row < rows ? runsOf(silhouette, row, tools) : [])
    for (const [run, since] of open) {
      if (runs.has(run)) continue
      const [from = 0, to = 0] = run.split(' ').map(Number)
      const top = -(bottom_mm + row * row_mm)
      const height = (row - since) * row_mm
      path += `M${from * cell_mm} ${top}h${(to - from) * cell_mm}v${height}h${(from - to) * cell_mm}z`
    }
    open = new Map([...runs].map((run) => [run, open.get(run) ?? row]))
  }
  return path
}

/** Filled runs of a row as `from to`, columns, the end not included. */
function runsOf({ columns, bits }: SilhouetteBits, row: number, tools: number): string[] {
  const runs: string[] = []
  for (let column = 0, from = -1; column <= columns; column++) {
    const filled = column < columns && ((bits[row * columns + column] ?? 0) & tools) !== 0
    if (filled && from < 0) from = column
    if (!filled && from >= 0) {
      runs.push(`${from} ${column}`)
      from = -1
    }
  }
  return runs
}

/** Leftmost and rightmost edge of what is filled and its top, mm from the grid's left and the bed. */
export function silhouetteExtent(silhouette: SilhouetteBits): {
  readonly left: number
  readonly right: number
  readonly top: number
} {
  let [left, right, top] = [silhouette.columns, 0, 0]
  for (let row = 0; row < silhouette.rows; row++) {
    for (let column = 0; column < silhouette.columns; column++) {
      if (silhouette.bits[row * silhouette.columns + column] === 0) continue
      left = Math.min(left, column)
      right = Math.max(right, column + 1)
      top = row + 1
    }
  }
  const { cell_mm, row_mm, bottom_mm } = silhouette
  return {
    left: Math.min(left, right) * cell_mm,
    right: right * cell_mm,
    top: bottom_mm + top * row_mm,
  }
}
