import { Column } from './column.ts'
import type { Layers } from './reading.ts'

/** Heights are sums of decimals: this is far above their rounding, mm. */
const rounding = 1e-9
/** A change of height no larger than this is the same layer, mm. */
const sameHeight = 0.02 + rounding
/** Step taken for a climbing path before any layer told one, mm. Common practice, no source. */
const usualStep = 0.2
/** A pass over another object is believed only after this many layers of the last one. */
const layersOfAnObject = 3

/**
 * Finds layers from extruding moves alone.
 *
 * The reader compares each extruding move's height with `top` and `floor` itself and calls `move`
 * only when the height leaves that band or the move climbs.
 *
 * @see docs/method/draw.md, section 6
 */
export class LayerFinder {
  /** Heights above this need a look; −∞ while no layer is open, so that every move does. */
  top: number = Number.NEGATIVE_INFINITY
  /** Heights below this need a look. */
  floor: number = Number.POSITIVE_INFINITY
  count = 0
  /** Called before a layer is opened, with the number of the one that ends (0: none). */
  readonly #onEnd: (layer: number) => void
  readonly #heights = new Column()
  readonly #endByte = new Column()
  readonly #endLine = new Column()
  readonly #steps = new Map<number, number>()
  #passes = 0
  #height = 0
  #step = usualStep
  #passFirstHeight = 0
  #passLayers = 0

  constructor(onEnd: (layer: number) => void) {
    this.#onEnd = onEnd
  }

  /**
   * Looks at an extruding move from height `from` to `to`, before its feed is counted.
   *
   * @param byte - where its line begins
   */
  move(from: number, to: number, byte: number, line: number): void {
    if (this.count === 0) {
      this.#open(to, byte, line, true)
    } else if (to > this.#height + sameHeight) {
      this.#rise(from, to, byte, line)
    } else if (to < this.#height - sameHeight) {
      this.#sink(to, byte, line)
    }
  }

  #rise(from: number, to: number, byte: number, line: number): void {
    const step = to - this.#height
    if (to > from) {
      if (step < this.#step - rounding) return
    } else {
      this.#step = step
      const key = Math.round(step * 1000)
      this.#steps.set(key, (this.#steps.get(key) ?? 0) + 1)
    }
    this.#open(to, byte, line, false)
  }

  #sink(to: number, byte: number, line: number): void {
    if (this.#passLayers === 1) {
      this.#setHeight(to)
      this.#heights.set(this.count - 1, to)
      this.#passFirstHeight = to
    } else if (to <= this.#passFirstHeight + sameHeight && this.#passLayers >= layersOfAnObject) {
      this.#open(to, byte, line, true)
    }
  }

  #open(height: number, byte: number, line: number, newPass: boolean): void {
    if (this.count > 0) {
      this.#endByte.push(byte)
      this.#endLine.push(line - 1)
    }
    this.#onEnd(this.count)
    this.count++
    this.#heights.push(height)
    this.#setHeight(height)
    if (newPass) {
      this.#passes++
      this.#passFirstHeight = height
      this.#passLayers = 0
    }
    this.#passLayers++
  }

  #setHeight(height: number): void {
    this.#height = height
    this.top = height + sameHeight
    this.floor = height - sameHeight
  }

  /** Forgets everything: it was a start macro. */
  forget(): void {
    this.top = Number.NEGATIVE_INFINITY
    this.floor = Number.POSITIVE_INFINITY
    this.count = 0
    this.#heights.clear()
    this.#endByte.clear()
    this.#endLine.clear()
    this.#steps.clear()
    this.#passes = 0
    this.#step = usualStep
  }

  /** Closes the last layer at the end of the file. */
  layers(byte: number, line: number, spiral: boolean): Layers {
    if (this.count > 0) {
      this.#endByte.push(byte)
      this.#endLine.push(line)
    }
    return {
      count: this.count,
      passes: this.#passes,
      spiral,
      step_mm: this.#usualStep(),
      height_mm: this.#heights.toArray(),
      endByte: this.#endByte.toArray(),
      endLine: this.#endLine.toArray(),
    }
  }

  /** The commonest step; where there is none, the height of the only layer. */
  #usualStep(): number {
    let best = 0
    let most = 0
    for (const [step, times] of this.#steps) {
      if (times > most) {
        best = step / 1000
        most = times
      }
    }
    if (most > 0) return best
    if (this.count === 0) return 0
    return this.count === 1 ? Math.max(0, this.#heights.at(0)) : this.#step
  }
}
