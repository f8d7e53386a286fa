import { fromPicometres, toPicometres, wholePicometres } from './picometres.ts'
import { numberTooLarge } from './read-stop.ts'

/** Tool numbers 0…99 are tools; 100 and more are a machine's macros. */
export const toolNumbers = 100

/** Whether E words count from the move before (`relative`) or from where E was set; `code` believes the file. */
export type EMode = 'code' | 'absolute' | 'relative'

/** What is remembered of each tool: columns of a row in `FeedState`'s table. */
export const toolColumn = {
  /** Signed feed so far, pm. */
  net: 0,
  /** Running maximum of `net`, never below 0, pm. */
  peak: 1,
  flow: 2,
  /** Filament diameter by which mm³ become mm, mm. */
  diameter: 3,
  /** Logical E when the tool was left, pm; brought back by families that keep one each. */
  register: 4,
  /** 1 while firmware retraction holds the filament back. */
  retracted: 5,
  retractLength: 6,
  retractExtra: 7,
} as const

export type ToolColumn = (typeof toolColumn)[keyof typeof toolColumn]

const columns = 8
/** Largest single feed believed, pm. */
const feedBudget = 1e21

/**
 * All that one firmware family remembers about feeding. Two families whose states are equal will
 * read the rest of the file alike, until a line on which they differ: the reader keeps one state
 * for all families that agree, and splits and joins them as lines come. States are copied and
 * compared often, so all tools live in one small table: row 0 is what a tool not yet seen has, row
 * n + 1 is tool n.
 */
export class FeedState {
  axesRelative = false
  eFlagRelative = false
  /** Whether E words are deltas now; follows the two flags by the family's rule. */
  relative = false
  /** Logical E, pm; when it is volume, the same part of a mm³. */
  e = 0
  tool = 0
  inch = false
  /** In mm³ mode inches count cubed; set with inch mode, by the family. */
  inchCubes = false
  /** E is mm³. */
  volumetric = false
  /** States kept by name, for the family that has the command. Replaced, never changed. */
  saved: ReadonlyMap<string, SavedState> = noStates
  /** How E words are taken; `code` believes the file. */
  readonly eMode: EMode
  #table: Float64Array

  constructor(filamentDiameter = 1.75, eMode: EMode = 'code') {
    this.eMode = eMode
    this.relative = eMode === 'relative'
    this.#table = new Float64Array(2 * columns)
    this.setAll(toolColumn.flow, 1)
    this.setAll(toolColumn.diameter, filamentDiameter)
  }

  get(column: ToolColumn, tool: number = this.tool): number {
    const at = (tool + 1) * columns
    return this.#table[(at < this.#table.length ? at : 0) + column] as number
  }

  set(column: ToolColumn, value: number, tool: number = this.tool): void {
    const at = (tool + 1) * columns
    if (at >= this.#table.length) this.#grow(at + columns)
    this.#table[at + column] = value
  }

  /** Sets a column of every tool, those not seen yet included. */
  setAll(column: ToolColumn, value: number): void {
    for (let at = column as number; at < this.#table.length; at += columns) this.#table[at] = value
  }

  /** Makes a tool the active one; from here on it counts as seen. */
  select(tool: number): void {
    this.tool = tool
    const size = (tool + 2) * columns
    if (size > this.#table.length) this.#grow(size)
  }

  #grow(size: number): void {
    const table = new Float64Array(size)
    table.set(this.#table)
    for (let at = this.#table.length; at < size; at++) table[at] = table[at % columns] as number
    this.#table = table
  }

  /** One more than the highest tool number seen. */
  get tools(): number {
    return this.#table.length / columns - 1
  }

  /** Factor from the E word's unit to the unit of logical E. */
  get scale(): number {
    if (!this.inch) return 1
    return this.volumetric && this.inchCubes ? 25.4 ** 3 : 25.4
  }

  /** Factor from logical E to what passes a tool's feeder. */
  factor(tool: number = this.tool): number {
    const flow = this.get(toolColumn.flow, tool)
    if (!this.volumetric) return flow
    return flow / ((Math.PI / 4) * this.get(toolColumn.diameter, tool) ** 2)
  }

  /** Where an E word is on the scale of logical E. */
  targetOf(word: number): number {
    return wholePicometres(toPicometres(word) * this.scale)
  }

  /** Takes an E word, moves logical E, and returns the feed it asks of the active tool, pm. */
  ask(word: number): number {
    const target = this.targetOf(word)
    const feed = (this.relative ? target : target - this.e) * this.factor()
    this.e = this.relative ? this.e + target : target
    return wholePicometres(feed)
  }

  /**
   * Moves `length` pm past a tool's feeder.
   *
   * @throws ReadStop `number_too_large`
   */
  feed(length: number, tool: number = this.tool): void {
    if (!(Math.abs(length) < feedBudget)) throw numberTooLarge()
    const net = this.get(toolColumn.net, tool) + length
    this.set(toolColumn.net, net, tool)
    if (net > this.get(toolColumn.peak, tool)) this.set(toolColumn.peak, net, tool)
  }

  /** Draw of each tool seen so far, mm; index = tool. */
  peaks(): Float64Array {
    return Float64Array.from({ length: this.tools }, (_, tool) => this.draw(tool))
  }

  /** Draw of one tool, mm. */
  draw(tool: number): number {
    return fromPicometres(this.get(toolColumn.peak, tool))
  }

  clone(): FeedState {
    const copy = new FeedState(undefined, this.eMode)
    copy.axesRelative = this.axesRelative
    copy.eFlagRelative = this.eFlagRelative
    copy.relative = this.relative
    copy.e = this.e
    copy.tool = this.tool
    copy.inch = this.inch
    copy.inchCubes = this.inchCubes
    copy.volumetric = this.volumetric
    copy.saved = this.saved
    copy.#table = this.#table.slice()
    return copy
  }

  /** Whether both will read any line that follows alike, given the same family rules. */
  equals(other: FeedState): boolean {
    return (
      this.relative === other.relative &&
      this.e === other.e &&
      this.tool === other.tool &&
      this.axesRelative === other.axesRelative &&
      this.eFlagRelative === other.eFlagRelative &&
      this.inch === other.inch &&
      this.inchCubes === other.inchCubes &&
      this.volumetric === other.volumetric &&
      this.saved === other.saved &&
      this.#table.length === other.#table.length &&
      this.#table.every((value, at) => value === other.#table[at])
    )
  }
}

/** What SAVE_GCODE_STATE keeps. */
export interface SavedState {
  readonly axesRelative: boolean
  readonly eFlagRelative: boolean
  readonly e: number
  readonly flow: number
}

const noStates: ReadonlyMap<string, SavedState> = new Map()
