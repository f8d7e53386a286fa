import type { ArcPoint } from './arc.ts'

/** Whoever draws what the extruding moves lay down, told of each by the line reader. */
export interface MoveDrawing {
  /** The tool that draws from here on. */
  readonly useTool: (tool: number, slots: Float64Array) => void
  /** A way from point to point, of a layer that is open already. */
  readonly draw: (points: readonly ArcPoint[], slots: Float64Array) => void
  /** Forgets everything: it was a start macro. */
  readonly forget: (slots: Float64Array) => void
}
