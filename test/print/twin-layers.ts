import type { ArcPoint } from '../../src/print/index.ts'

/** The way of one move, and who goes it. Lengths in mm. */
export interface Stroke {
  readonly from: ArcPoint
  readonly to: ArcPoint
  readonly tool: number
  readonly command: string
  /** I, J and R of the line, as far as they are written. */
  readonly i: number | undefined
  readonly j: number | undefined
  readonly r: number | undefined
}

/** A stroke that is laid down, and the layer it is in; 1-based. */
export interface LaidStroke extends Stroke {
  readonly layer: number
}

/** What one move does to the nozzle, and to the reel. */
export interface Motion {
  readonly stroke: Stroke
  readonly feed_mm: number
  readonly arc: boolean
  /** X or Y is named with a number. */
  readonly namesXY: boolean
  /** X or Y changes. */
  readonly travels: boolean
  readonly fromHeight: number
  readonly toHeight: number
  /** Straight distance from start to end in X and Y, mm. */
  readonly path_mm: number
}

export interface Layer {
  /** Height at which the layer is drawn, mm. */
  height: number
  readonly firstOfPass: boolean
  /** Step (place in the written-out program) on which the layer's first move stands. */
  readonly opensAt: number
  /** Draw of each tool before the layer's first move feeds, mm. */
  readonly drawBefore: ReadonlyMap<number, number>
}

const sameHeight = 0.02
const usualStep = 0.2
/** Steps are differences of decimal heights; this is far above their rounding. */
const rounding = 1e-9

const movesOfPreparing = 16
const movesOfSettingUp = 64

/** Section 6 of the method, one move after another. */
export class LayerFinder {
  layers: Layer[] = []
  /** Stops noted before the last time that layers were forgotten stand before the first layer. */
  forgotten = 0
  private step = usualStep
  private extrudingMoves = 0
  private movesSinceHeat = 0
  private arcsSinceHeat = 0
  private path_mm = 0
  private climbing_mm = 0

  /** Called before the move feeds. */
  move(motion: Motion, at: number, draw: () => ReadonlyMap<number, number>): void {
    if (!(motion.feed_mm > 0 && (motion.namesXY || motion.arc))) return
    const climbs = motion.toHeight > motion.fromHeight
    this.extrudingMoves += 1
    this.movesSinceHeat += 1
    if (motion.arc) this.arcsSinceHeat += 1
    this.path_mm += motion.path_mm
    if (climbs) this.climbing_mm += motion.path_mm
    if (!motion.travels && !motion.arc) return

    const open = (firstOfPass: boolean): void => {
      this.layers.push({
        height: motion.toHeight,
        firstOfPass,
        opensAt: at,
        drawBefore: draw(),
      })
    }
    const current = this.layers.at(-1)
    if (!current) return open(true)

    const above = motion.toHeight - current.height
    if (climbs) {
      if (above >= this.step - rounding && above > sameHeight + rounding) return open(false)
    } else if (above > sameHeight + rounding) {
      this.step = above
      return open(false)
    }
    if (above < -sameHeight - rounding) {
      if (current.firstOfPass) {
        current.height = motion.toHeight
        return
      }
      const first = this.layers.findLastIndex((layer) => layer.firstOfPass)
      const drawn = this.layers.length - first
      if (drawn >= 3 && motion.toHeight <= this.layers[first]!.height + sameHeight + rounding) {
        open(true)
      }
    }
  }

  /** Homing, probing, waiting for heat. */
  heatOrHome(): void {
    if (this.extrudingMoves > movesOfSettingUp) return
    this.movesSinceHeat = 0
    this.arcsSinceHeat = 0
    this.forget()
  }

  /** G92 with an E number, M82, M83. */
  prepare(): void {
    const few = this.arcsSinceHeat === 0 && this.movesSinceHeat <= movesOfPreparing
    if (few && this.layers.length <= 1) this.forget()
  }

  get spiral(): boolean {
    return this.climbing_mm > this.path_mm / 2
  }

  get passes(): number {
    return this.layers.filter((layer) => layer.firstOfPass).length
  }

  private forget(): void {
    this.layers = []
    this.step = usualStep
    this.path_mm = 0
    this.climbing_mm = 0
    this.forgotten += 1
  }
}
