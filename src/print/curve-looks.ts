import { toolColumn } from './feed-state.ts'
import { drawSpacing, nextCell } from './look-spacing.ts'
import { rowColumns } from './plain-lines.ts'
import type { ReaderState } from './reader-state.ts'

/** Looks at the draw curve now and then, and adds the rows that are due; as the kernel does (look-spacing.ts). */
export class CurveLooks {
  readonly #state: ReaderState

  constructor(state: ReaderState) {
    this.#state = state
  }

  /** A line with an E word has been read. */
  behindMove(byte: number): void {
    const isCell = byte >= this.#state.count('curveAt')
    if (isCell) this.#state.set('curveAt', nextCell(byte))
    if (this.#state.tracks.single) this.look(isCell, this.#state.height, byte)
    else this.anew(byte)
  }

  /** Looks where a cell begins, or so much was fed since the last look. */
  look(isCell: boolean, height: number, byte: number): void {
    const state = this.#state
    if (isCell) this.#begin()
    else {
      const passed = state.net - state.count('lookAt')
      if (!(passed >= 0)) return
      const apart = state.count('spacing')
      state.set('lookAt', state.count('lookAt') + (Math.floor(passed / apart) + 1) * apart)
    }
    this.record(height, byte)
  }

  /** Looks whatever was fed, and from here on as where a cell begins. */
  anew(byte: number): void {
    this.#begin()
    this.record(this.#state.height, byte)
  }

  #begin(): void {
    const state = this.#state
    const apart = state.count('ownSpacing') || this.spacing
    state.set('spacing', apart)
    state.set('lookAt', state.net + apart)
  }

  /** How far apart looks are in a cell that begins now, pm. */
  get spacing(): number {
    return drawSpacing(this.#state.feed.get(toolColumn.peak))
  }

  /** Adds the rows that are due. */
  record(height: number, byte: number): void {
    const state = this.#state
    if (state.inRange) return
    state.tracks.record(height, state.layers.count, byte, state.ask)
    state.loadRows()
  }

  /** Takes rows that the kernel has written down. */
  take(rows: Float64Array, count: number): void {
    const { tracks, layers } = this.#state
    const recorder = tracks.first.recorder()
    for (let row = 0; row < count * rowColumns; row += rowColumns) {
      const draw = rows[row] as number
      // Others were due before rows were thinned.
      if (draw < recorder.next) continue
      recorder.record(draw, rows[row + 1] as number, layers.count, rows[row + 2] as number, 0)
    }
    this.#state.loadRows()
  }
}
