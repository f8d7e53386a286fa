import type { ArcPoint } from './arc.ts'
import { Column } from './column.ts'
import type { MoveDrawing } from './move-drawing.ts'

/** One way laid down without lifting. */
export interface PlanWay {
  readonly tool: number
  /** x, y, x, y, …, mm, in the coordinates that the file names; two points at least. */
  readonly points: Float64Array
}

/** One layer seen from above: what its extruding moves lay down, in the order of the print. */
export interface LayerPlan {
  /** 1-based. */
  readonly layer: number
  /** None where the print has no such layer. */
  readonly ways: readonly PlanWay[]
  /**
   * Points nearer than this to the one before, and ways shorter than this, are left out, mm: 0 but
   * for layers with more than `planPoints` points.
   */
  readonly thinned_mm: number
}

interface OpenWay {
  readonly tool: number
  readonly points: Column
}

/** Most points kept of a layer. */
export const planPoints: number = 2 ** 17
const finest = 1 / 32

/**
 * Collects the plan of one layer while the print is read, in constant memory.
 *
 * It leaves the kernel's row at hand empty, so that every extruding move comes here.
 */
export class PlanTrace implements MoveDrawing {
  readonly #layer: number
  readonly #current: () => number
  #tool = 0
  #ways: OpenWay[] = []
  #points = 0
  #thinned = 0

  /** @param current - says which layer is in progress */
  constructor(layer: number, current: () => number) {
    this.#layer = layer
    this.#current = current
  }

  useTool(tool: number): void {
    this.#tool = tool
  }

  draw(points: readonly ArcPoint[]): void {
    const [first, ...more] = points
    if (first === undefined || this.#current() !== this.#layer) return
    const last = this.#ways.at(-1)
    const way = last !== undefined && goesOn(last, this.#tool, first) ? last : this.#begin(first)
    for (const { x, y } of more) this.#add(way, x, y)
    if (this.#points > planPoints) this.#thin()
  }

  forget(): void {
    this.#ways = []
    this.#points = 0
    this.#thinned = 0
  }

  plan(): LayerPlan {
    return {
      layer: this.#layer,
      ways: this.#ways.map(({ tool, points }) => ({ tool, points: points.toArray() })),
      thinned_mm: this.#thinned,
    }
  }

  #begin({ x, y }: ArcPoint): OpenWay {
    const way = { tool: this.#tool, points: new Column() }
    this.#ways.push(way)
    this.#add(way, x, y)
    return way
  }

  #add({ points }: OpenWay, x: number, y: number): void {
    points.push(x)
    points.push(y)
    this.#points++
  }

  /** Leaves out ever more until half of the points are gone. */
  #thin(): void {
    while (this.#points > planPoints / 2) {
      this.#thinned = Math.max(finest, this.#thinned * 2)
      const open = this.#ways.at(-1)
      this.#ways = this.#ways.flatMap((way) => {
        const points = thinner(way.points, this.#thinned)
        const isLong = points.length > 4 || lengthOf(points) >= this.#thinned
        return isLong || way === open ? [{ ...way, points }] : []
      })
      this.#points = this.#ways.reduce((sum, { points }) => sum + points.length / 2, 0)
    }
  }
}

const goesOn = ({ tool, points }: OpenWay, now: number, { x, y }: ArcPoint): boolean =>
  tool === now && points.at(points.length - 2) === x && points.at(points.length - 1) === y

/** The first point, the last, and between them those that lie `apart` from the one before. */
const thinner = (points: Column, apart: number): Column => {
  const kept = new Column()
  const keep = (at: number): void => {
    kept.push(points.at(at))
    kept.push(points.at(at + 1))
  }
  keep(0)
  for (let at = 2; at < points.length - 2; at += 2) {
    const [x, y] = [kept.at(kept.length - 2), kept.at(kept.length - 1)]
    if (Math.hypot(points.at(at) - x, points.at(at + 1) - y) >= apart) keep(at)
  }
  keep(points.length - 2)
  return kept
}

const lengthOf = (points: Column): number =>
  Math.hypot(points.at(2) - points.at(0), points.at(3) - points.at(1))
