import type { EUnit } from './apply-command.ts'
import { BeadSampler } from './bead.ts'
import type { Clock } from './clock.ts'
import { Column } from './column.ts'
import { type EMode, FeedState, toolColumn } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import { LayerFinder } from './layer-finder.ts'
import { PlanTrace } from './layer-plan.ts'
import { type PlainLines, type PlainModes, plainLines, slot, slots } from './plain-lines.ts'
import { ReadStop } from './read-stop.ts'
import { Remarks } from './remarks.ts'
import { SilhouetteGrid } from './silhouette-grid.ts'
import { TrackGroup } from './track-group.ts'

const layerBudget = 200_000
/** Above this many mm to the unit of E every feed is checked. */
const usualFactor = 100

/** What is read, and what is wanted of it. */
export interface ReaderOrder {
  readonly families: readonly FirmwareFamily[]
  readonly eUnit: EUnit
  readonly eMode: EMode
  /** Of the filament, mm. */
  readonly diameter: number
  /** What of the print is drawn on the way: its silhouette, or the plan of a layer. */
  readonly drawing: 'silhouette' | number | null
  readonly clock: Clock | null
}

/**
 * All that the rooms of the line reader share: what has been found so far, the slots that the kernel
 * works on, and the feed states. Between lines it describes everything before the line.
 */
export class ReaderState {
  readonly families: readonly FirmwareFamily[]
  readonly eUnit: EUnit
  readonly clock: Clock | null
  readonly kernel: PlainLines | null = plainLines()
  readonly remarks: Remarks
  readonly bead: BeadSampler = new BeadSampler()
  readonly layers: LayerFinder
  readonly tracks: TrackGroup
  readonly drawing: SilhouetteGrid | PlanTrace | null
  /** Tickets for the times at which layers end; the last layer ends with the file. */
  readonly layerTickets: Column = new Column()
  /** Own slots; the kernel's while it runs. */
  slots: Float64Array = new Float64Array(slots)
  /** Whether lengths of the axes are inches. */
  axesInch = false
  /** Whether a range is read of whose begin nothing is known. */
  inRange = false
  /** Byte in the machine code of index 0 of the buffer being read. */
  base = 0
  /** The last buffer ended in CR: an LF at the start of the next one belongs to it. */
  afterCR = false

  constructor({ families, eUnit, eMode, diameter, drawing, clock }: ReaderOrder) {
    this.families = families
    this.eUnit = eUnit
    this.clock = clock
    this.remarks = new Remarks(
      eUnit === 'code',
      families.some(({ volumetric }) => volumetric === 'none'),
    )
    const state = new FeedState(diameter, eMode)
    state.volumetric = eUnit === 'mm3'
    this.tracks = new TrackGroup(families, state)
    this.layers = new LayerFinder((layer) => this.#endLayer(layer))
    this.drawing =
      typeof drawing === 'number'
        ? new PlanTrace(drawing, () => this.layers.count)
        : drawing && new SilhouetteGrid()
  }

  /** Lines read so far; the number of the last line. */
  get line(): number {
    return this.count('line')
  }

  /** Height of the nozzle, mm. */
  get height(): number {
    return this.count('z')
  }

  /** The first family's feed state, which decides layers and stops. */
  get feed(): FeedState {
    return this.tracks.first.state
  }

  /** Net feed of the active tool, pm. */
  get net(): number {
    return this.feed.get(toolColumn.net)
  }

  /** A counter or value of the slots. */
  count(name: keyof typeof slot): number {
    return this.slots[slot[name]] as number
  }

  set(name: keyof typeof slot, value: number): void {
    this.slots[slot[name]] = value
  }

  add(name: keyof typeof slot): void {
    this.set(name, this.count(name) + 1)
  }

  /** A ticket for the time here. */
  readonly ask = (): number => this.clock?.ask() ?? 0

  /** What holds for plain lines. */
  modes(): PlainModes {
    const { feed } = this
    const factor = feed.factor()
    const plain = this.tracks.single && !feed.axesRelative && !this.axesInch && factor < usualFactor
    const drawing = this.drawing !== null
    const timing = this.clock !== null
    return { plain, drawing, timing, relative: feed.relative, scale: feed.scale, factor }
  }

  /** Brings what the kernel changes of the single state into the slots. */
  load(): void {
    const { feed } = this
    this.set('e', feed.e)
    this.set('net', feed.get(toolColumn.net))
    this.set('peak', feed.get(toolColumn.peak))
    if (!this.inRange) {
      this.loadRows()
      this.#loadBand()
    }
    this.drawing?.useTool(feed.tool, this.slots)
  }

  /** Tells the kernel where rows of the curve are due. */
  loadRows(): void {
    const { first } = this.tracks
    this.set('due', first.nextRow())
    this.kernel?.setRowStep(first.rowStep())
  }

  #loadBand(): void {
    this.set('top', this.layers.top)
    this.set('floor', this.layers.floor)
  }

  /** Takes what the kernel has changed over into the single state. */
  store(): void {
    if (!this.tracks.single) return
    const { feed } = this
    feed.e = this.count('e')
    feed.set(toolColumn.net, this.count('net'))
    feed.set(toolColumn.peak, this.count('peak'))
  }

  /** An extruding move goes to this height: it may open a layer. */
  lookForLayer(height: number, byte: number): void {
    this.layers.move(this.height, height, byte, this.line)
    this.#loadBand()
  }

  #endLayer(layer: number): void {
    if (layer >= layerBudget) {
      throw new ReadStop({
        code: 'too_many_layers',
        message: `More than ${layerBudget} layers. This is hardly a print: check how the file was made.`,
        line: this.line,
      })
    }
    this.tracks.endLayer(layer)
    if (this.clock !== null && layer > 0) this.layerTickets.push(this.clock.ask())
  }

  /** What was drawn so far is start macro: it has no layers. */
  forgetLayers(): void {
    this.layers.forget()
    this.layerTickets.clear()
    this.drawing?.forget(this.slots)
    this.bead.forget()
    this.remarks.forgetLayers()
    this.tracks.forgetLayers()
  }
}
