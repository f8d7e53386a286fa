import { fromPicometres } from './picometres.ts'
import type { DrawCurve } from './reading.ts'

/** At least half of them are left by thinning, of a draw of at least so many halves of a step. */
const rowLimit = 4096
/** A µm, nearly: a power of two, so that sums and shares of it are exact, pm. */
const firstStep = 2 ** 20

/**
 * Records the draw curve of one tool without knowing its end: a row wherever the draw reaches the next
 * whole step; when the rows are full the step doubles, and rows between whole steps go. So which rows are
 * left depends on the whole alone. They stand no farther apart than a step, which is at most a 2048th of
 * the total, and the way from look to look (look-spacing.ts), which is at most another and one move.
 */
export class CurveRecorder {
  #draw = new Float64Array(64)
  #height = new Float64Array(64)
  #layer = new Int32Array(64)
  #byte = new Float64Array(64)
  /** Ticket for the time; 0 where none is asked for. */
  #ticket = new Int32Array(64)
  #rows = 0
  /** Draw from row to row, pm. */
  step: number = firstStep
  /** Draw at which the next row is due, pm. */
  next: number = firstStep

  /** Adds a row, whether due or not. @param draw - pm */
  record(draw: number, height: number, layer: number, byte: number, ticket: number): void {
    while (this.#rows === rowLimit) this.#thin()
    if (this.#rows === this.#draw.length) this.#grow()
    const row = this.#rows++
    this.#draw[row] = draw
    this.#height[row] = height
    this.#layer[row] = layer
    this.#byte[row] = byte
    this.#ticket[row] = ticket
    this.next = this.#after(draw)
  }

  #after(draw: number): number {
    return (Math.floor(draw / this.step) + 1) * this.step
  }

  #thin(): void {
    this.step *= 2
    let kept = 0
    let next = this.step
    for (let row = 0; row < rowLimit; row++) {
      const draw = this.#draw[row] as number
      if (draw < next) continue
      next = this.#after(draw)
      this.#draw[kept] = draw
      this.#height[kept] = this.#height[row] as number
      this.#layer[kept] = this.#layer[row] as number
      this.#byte[kept] = this.#byte[row] as number
      this.#ticket[kept] = this.#ticket[row] as number
      kept++
    }
    this.#rows = kept
  }

  #grow(): void {
    const size = this.#draw.length * 2
    this.#draw = larger(this.#draw, new Float64Array(size))
    this.#height = larger(this.#height, new Float64Array(size))
    this.#layer = larger(this.#layer, new Int32Array(size))
    this.#byte = larger(this.#byte, new Float64Array(size))
    this.#ticket = larger(this.#ticket, new Int32Array(size))
  }

  /** Forgets the layer numbers so far: they belonged to a start macro. */
  forgetLayers(): void {
    this.#layer.fill(0, 0, this.#rows)
  }

  clone(): CurveRecorder {
    const copy = new CurveRecorder()
    copy.#draw = this.#draw.slice()
    copy.#height = this.#height.slice()
    copy.#layer = this.#layer.slice()
    copy.#byte = this.#byte.slice()
    copy.#ticket = this.#ticket.slice()
    copy.#rows = this.#rows
    copy.step = this.step
    copy.next = this.next
    return copy
  }

  /** @param timeOf - tells the time of a ticket, where times are asked for, s */
  curve(timeOf: ((ticket: number) => number) | null): DrawCurve {
    return {
      draw_mm: this.#draw.slice(0, this.#rows).map(fromPicometres),
      height_mm: this.#height.slice(0, this.#rows),
      layer: this.#layer.slice(0, this.#rows),
      byte: this.#byte.slice(0, this.#rows),
      ...(timeOf !== null && {
        time_s: Float64Array.from(this.#ticket.subarray(0, this.#rows), timeOf),
      }),
    }
  }
}

function larger<T extends Float64Array | Int32Array>(column: T, fresh: T): T {
  fresh.set(column)
  return fresh
}
