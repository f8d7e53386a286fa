import { Column } from './column.ts'
import { CurveRecorder } from './curve-recorder.ts'
import { type FeedState, toolColumn } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import { ReadStop } from './read-stop.ts'

const toolBudget = 32

const tooManyTools = (): ReadStop =>
  new ReadStop({
    code: 'too_many_tools',
    message: `More than ${toolBudget} tools feed in this file. This is hardly a print: check how it was made.`,
  })

/** Families that agree so far: one feed state, and what was recorded of it. */
export class Track {
  families: FirmwareFamily[]
  state: FeedState
  readonly #recorders = new Map<number, CurveRecorder>()
  readonly #layerEnds = new Map<number, Column>()
  /** Draw before the first layer, mm; index = tool, 0 beyond its end. */
  startMacro: Float64Array = new Float64Array(0)

  constructor(families: FirmwareFamily[], state: FeedState) {
    this.families = families
    this.state = state
  }

  /**
   * The curve of a tool, made on its first feed.
   *
   * @throws ReadStop `too_many_tools`
   */
  recorder(tool: number = this.state.tool): CurveRecorder {
    let recorder = this.#recorders.get(tool)
    if (recorder === undefined) {
      if (this.#recorders.size === toolBudget) throw tooManyTools()
      recorder = new CurveRecorder()
      this.#recorders.set(tool, recorder)
    }
    return recorder
  }

  /** Draw at which the active tool's next row is due, pm; 0 before its first. */
  nextRow(): number {
    return this.#recorders.get(this.state.tool)?.next ?? 0
  }

  /** How far apart its rows are, pm. */
  rowStep(): number {
    return this.#recorders.get(this.state.tool)?.step ?? 0
  }

  /** Adds a row where one is due. @param ask - for a ticket for the time */
  record(tool: number, height: number, layer: number, byte: number, ask: () => number): void {
    const peak = this.state.get(toolColumn.peak, tool)
    if (peak === 0) return
    const recorder = this.recorder(tool)
    if (peak >= recorder.next) recorder.record(peak, height, layer, byte, ask())
  }

  /** Keeps what each tool has drawn when layer `layer` ends; 0: before the first. */
  endLayer(layer: number): void {
    if (layer === 0) {
      this.startMacro = this.state.peaks()
      return
    }
    for (const tool of this.#recorders.keys()) {
      let ends = this.#layerEnds.get(tool)
      if (ends === undefined) {
        ends = new Column()
        this.#layerEnds.set(tool, ends)
      }
      while (ends.length < layer - 1) ends.push(this.startMacroOf(tool))
      ends.push(this.state.draw(tool))
    }
  }

  startMacroOf(tool: number): number {
    return this.startMacro[tool] ?? 0
  }

  /** The layers so far belonged to a start macro. */
  forgetLayers(): void {
    this.#layerEnds.clear()
    this.startMacro = this.state.peaks()
    for (const recorder of this.#recorders.values()) recorder.forgetLayers()
  }

  layerEnds(tool: number, layers: number): Float64Array {
    const ends = this.#layerEnds.get(tool)?.toArray() ?? new Float64Array(0)
    return ends.length === layers ? ends : new Float64Array(layers).fill(this.startMacroOf(tool))
  }

  /** Whether both have told the same of what lies behind: start macro and layer ends. */
  sharesPast(other: Track): boolean {
    if (this === other) return true
    const tools = Math.max(this.startMacro.length, other.startMacro.length)
    for (let tool = 0; tool < tools; tool++) {
      if (this.startMacroOf(tool) !== other.startMacroOf(tool)) return false
    }
    for (const tool of new Set([...this.#layerEnds.keys(), ...other.#layerEnds.keys()])) {
      const ends = this.#layerEnds.get(tool)?.toArray()
      const others = other.#layerEnds.get(tool)?.toArray()
      if (ends?.length !== others?.length) return false
      if (ends?.some((end, layer) => end !== others?.[layer])) return false
    }
    return true
  }

  /** A second track from here on, with the same past. */
  fork(families: FirmwareFamily[], state: FeedState): Track {
    const copy = new Track(families, state)
    for (const [tool, recorder] of this.#recorders) copy.#recorders.set(tool, recorder.clone())
    for (const [tool, ends] of this.#layerEnds) copy.#layerEnds.set(tool, ends.clone())
    copy.startMacro = this.startMacro.slice()
    return copy
  }
}
