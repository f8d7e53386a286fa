import { fromPicometres } from './picometres.ts'
import type { DrawCurve } from './reading.ts'

/**
 * Half of them are left by thinning. What is left stands up to two steps and two looks
 * (look-spacing.ts) apart, each at most a 4096th of the total where the print draws evenly: together
 * less than a thousandth.
 */
const rowLimit = 4096
/** pm. */
const firstStep = 1e6

/**
 * Records the draw curve of one tool without knowing its end: a row whenever the draw has grown by
 * a step; when the rows are full every second one goes and the step doubles, or becomes what the
 * rows left stand apart. So rows stand less than a thousandth of the total apart, or as close as
 * single moves and looks at the curve allow.
 */
export class CurveRecorder {
  #draw = new Float64Array(64)
  #height = new Float64Array(64)
  #layer = new Int32Array(64)
  #byte = new Float64Array(64)
  /** Tickets for the time; 0 where none is asked for. */
  #ticket = new Int32Array(64)
  #rows = 0
  #step = firstStep
  /** Draw at which the next row is due, pm. */
  next: number = firstStep

  /** @param draw - pm */
  record(draw: number, height: number, layer: number, byte: number, ticket: number): void {
    if (this.#rows === rowLimit) this.#thin()
    else if (this.#rows === this.#draw.length) this.#grow()
    const row = this.#rows++
    this.#draw[row] = draw
    this.#height[row] = height
    this.#layer[row] = layer
    this.#byte[row] = byte
    this.#ticket[row] = ticket
    this.next = draw + this.#step
  }

  #thin(): void {
    let kept = 0
    for (let row = 1; row < rowLimit; row += 2, kept++) {
      this.#draw[kept] = this.#draw[row] as number
      this.#height[kept] = this.#height[row] as number
      this.#layer[kept] = this.#layer[row] as number
      this.#byte[kept] = this.#byte[row] as number
      this.#ticket[kept] = this.#ticket[row] as number
    }
    this.#rows = kept
    // Moves may be larger than the step was: then what is kept stands farther apart.
    this.#step = Math.max(2 * this.#step, (this.#draw[kept - 1] as number) / kept)
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
    copy.#step = this.#step
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
