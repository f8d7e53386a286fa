import type { ArcPoint } from './arc.ts'
import type { MoveDrawing } from './move-drawing.ts'
import { slot, viewSlot } from './plain-lines.ts'
import { onGrid, SideView } from './side-view.ts'
import { type Silhouette, toolBit } from './silhouette.ts'

const views = [
  ['x', slot.viewX],
  ['y', slot.viewY],
] as const
const bytesOfRow = 32

/**
 * The silhouette while the print is read: both side views, for which is the wider is known in the
 * end only.
 *
 * One row of each is at hand in the slots, where the kernel marks cells by itself; whoever draws
 * outside it comes here, and `draw` sets the row at hand anew. The row's bits belong to the tool of
 * `useTool` and are collected before anything else may change.
 */
export class SilhouetteGrid implements MoveDrawing {
  #views = { x: new SideView(), y: new SideView() }
  #row = 0
  #bit = toolBit(0)

  /** The tool that draws from here on. */
  useTool(tool: number, slots: Float64Array): void {
    const bit = toolBit(tool)
    if (bit === this.#bit) return
    this.#collect(slots)
    this.#bit = bit
  }

  /** Draws a way from point to point, and sets the row at hand to the one it ends in. */
  draw(points: readonly ArcPoint[], slots: Float64Array): void {
    this.#collect(slots)
    for (let k = 1; k < points.length; k++) {
      const from = points[k - 1] as ArcPoint
      const to = points[k] as ArcPoint
      if (!isPlace(from) || !isPlace(to)) continue
      this.#views.x.line(from.x, from.z, to.x, to.z, this.#bit)
      this.#views.y.line(from.y, from.z, to.y, to.z, this.#bit)
    }
    const end = points.at(-1)
    if (end !== undefined) this.#setRow(end.z, slots)
  }

  /** Forgets everything: it was a start macro. */
  forget(slots: Float64Array): void {
    this.#views = { x: new SideView(), y: new SideView() }
    slots.fill(0, slot.rowFrom, slot.curveAt)
  }

  #setRow(height: number, slots: Float64Array): void {
    const { rows } = this.#views.x
    const row = rows.cellOf(height)
    const known = row >= rows.first && row <= rows.last
    this.#row = row
    slots[slot.rowFrom] = row * rows.size
    slots[slot.rowTo] = known ? (row + 1) * rows.size : Number.NEGATIVE_INFINITY
    for (const [axis, at] of views) {
      const { columns } = this.#views[axis]
      slots[at + viewSlot.perMm] = 1 / columns.size
      slots[at + viewSlot.first] = columns.first
      slots[at + viewSlot.count] = columns.count
    }
  }

  /** Takes over what the kernel has marked in the row at hand. */
  #collect(slots: Float64Array): void {
    for (const [axis, at] of views) {
      const view = this.#views[axis]
      const offset = slots.byteOffset + 8 * (at + viewSlot.bits)
      const marked = new Uint8Array(slots.buffer, offset, bytesOfRow)
      for (let byte = 0; byte < bytesOfRow; byte++) {
        const bits = marked[byte] as number
        for (let k = 0; bits >> k !== 0; k++) {
          if (((bits >> k) & 1) !== 0) {
            view.mark(view.columns.first + 8 * byte + k, this.#row, this.#bit)
          }
        }
      }
      marked.fill(0)
    }
  }

  /**
   * The wider side view; null when nothing was drawn.
   *
   * @param step - usual step between layers, mm; 0 when unknown
   */
  silhouette(step: number, slots: Float64Array): Silhouette | null {
    this.#collect(slots)
    const { x, y } = this.#views
    if (x.columns.count === 0) return null
    const axis = y.width > x.width ? 'y' : 'x'
    const view = this.#views[axis]
    view.coarsen(step)
    const { columns, rows } = view
    const bits = view.cells()
    hangDown(bits, columns.count)
    return {
      axis,
      columns: columns.count,
      rows: rows.count,
      cell_mm: columns.size,
      row_mm: rows.size,
      left_mm: columns.first * columns.size,
      bottom_mm: rows.first * rows.size,
      bits,
    }
  }
}

const isPlace = ({ x, y, z }: ArcPoint): boolean => onGrid(x, z) && onGrid(y, z)

/** Gives every empty row the cells of the row above. */
function hangDown(bits: Uint8Array, columns: number): void {
  for (let at = bits.length - 2 * columns; at >= 0; at -= columns) {
    const row = bits.subarray(at, at + columns)
    if (row.every((cell) => cell === 0)) row.set(bits.subarray(at + columns, at + 2 * columns))
  }
}
