import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { judgeBead } from './bead.ts'
import type { Clock, ClockMaker } from './clock.ts'
import { familiesDiffer } from './families-differ.ts'
import { toolColumn } from './feed-state.ts'
import { firmwareFamilies } from './firmware-family.ts'
import { lineBudget, overBudget, tooLong } from './line-budget.ts'
import { LineReader } from './line-reader.ts'
import { looksRelative } from './looks-relative.ts'
import { fromPicometres } from './picometres.ts'
import { PrintClock } from './print-clock.ts'
import type { RangeLog } from './range-log.ts'
import { ReadStop } from './read-stop.ts'
import type { Counts, FamilyReading, PrintReading, ReadOptions, ToolReading } from './reading.ts'
import { headBytes, sniff } from './sniff.ts'
import type { Track } from './track.ts'

const LF = 10
const CR = 13
const SEMICOLON = 59
/** What is left where feeds through a flow factor add up to nothing is rounding, mm. */
const nothing = 1e-7
/** Of a text line longer than the budget, this much is kept, bytes. */
const textHead = 1024

/**
 * Reads machine code given in slices of any size, in constant memory.
 *
 * Slices may be reused by the caller after each `push`. The result does not depend on where the
 * file is cut.
 *
 * @example
 * const reader = new PrintReader()
 * for (const slice of slices) reader.push(slice)
 * const reading = reader.finish()
 */
export class PrintReader {
  readonly #options: ReadOptions
  readonly #lines: LineReader
  readonly #clock: Clock | null = null
  /** Bytes held back: the head until it is looked at, then the unfinished last line. */
  #held: Uint8Array = new Uint8Array(headBytes)
  #heldLength = 0
  #sniffed = false
  /** In a remark or text longer than the line budget: nothing more is kept until it ends. */
  #dropping = false
  #dropped = 0
  /** Bytes given so far, and how many of them lie before what is held. */
  #given = 0
  #done = 0
  #refusal: Refusal | null = null

  /** @param clockOf - makes the clock, where the time is wanted; one in this thread unless given */
  constructor(options: ReadOptions = {}, clockOf: ClockMaker = (motion) => new PrintClock(motion)) {
    this.#options = options
    const { motion, firmware } = options
    if (motion !== undefined) {
      this.#clock = clockOf(firmware === undefined ? motion : { family: firmware, ...motion })
    }
    const families =
      options.firmware === undefined
        ? firmwareFamilies
        : firmwareFamilies.filter((family) => family.id === options.firmware)
    this.#lines = new LineReader({
      families,
      eUnit: options.eUnit ?? 'code',
      eMode: options.eMode ?? 'code',
      diameter: options.diameter_mm ?? 1.75,
      drawing: options.planOf ?? (options.silhouette === true ? 'silhouette' : null),
      clock: this.#clock,
    })
  }

  /** Why the file was refused, as soon as that is known: no need to push more. */
  get refusal(): Refusal | null {
    return this.#refusal
  }

  /** Takes the next bytes of the file. */
  push(slice: Uint8Array): void {
    if (this.#refusal !== null) return
    this.#given += slice.length
    try {
      if (this.#sniffed) {
        this.#take(slice)
      } else {
        this.#hold(slice)
        if (this.#heldLength >= headBytes) this.#begin()
      }
    } catch (error) {
      this.#refuse(error)
    }
  }

  /**
   * Goes on behind a range of the file that a `RangeReader` has read, as if it had been pushed. What
   * lies before the log's begin must have been pushed, and nothing else.
   *
   * @returns the byte of the file from which to push on: the log's end; or a place before it where what
   *   the other took to hold did not, so that the rest of the range is to be read in order
   */
  fold(log: RangeLog): number {
    const ready = this.#sniffed && this.#heldLength === 0 && this.#done === log.from
    if (!ready || this.#refusal !== null) return this.#given
    try {
      this.#done = this.#lines.fold(log)
    } catch (error) {
      this.#refuse(error)
    }
    this.#given = this.#done
    return this.#given
  }

  /** Ends the file and says what was found in it. Call once. */
  finish(): Outcome<PrintReading> {
    try {
      if (this.#refusal === null) this.#end()
    } catch (error) {
      this.#refuse(error)
    }
    return this.#refusal === null ? this.#conclude() : refuse(this.#refusal)
  }

  #refuse(error: unknown): void {
    if (!(error instanceof ReadStop)) throw error
    this.#refusal = { line: this.#lines.state.line, ...error.refusal }
    this.#held = new Uint8Array(0)
  }

  /** Looks at the head, then reads it. */
  #begin(): void {
    const head = this.#held.slice(0, this.#heldLength)
    const refusal = sniff(head.subarray(0, headBytes))
    if (refusal !== null) throw new ReadStop(refusal)
    this.#sniffed = true
    this.#heldLength = 0
    if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) {
      this.#lines.state.remarks.findings.note('byte_order_mark', 0, 1)
      this.#done = 3
      this.#take(head.subarray(3))
    } else this.#take(head)
  }

  #take(slice: Uint8Array): void {
    let from = 0
    if (this.#heldLength > 0) {
      const end = lineEnd(slice, 0)
      if (end < 0) {
        this.#keep(slice)
        return
      }
      from = end + 1
      const ends = slice[end - 1] === CR && slice[end] === LF ? 2 : 1
      if (this.#dropping) this.#drop(slice.subarray(0, from - ends))
      this.#hold(slice.subarray(this.#dropping ? from - ends : 0, from))
      this.#readHeld()
    }
    let to = slice.length
    while (to > from && slice[to - 1] !== LF && slice[to - 1] !== CR) to--
    if (to > from) {
      this.#lines.state.base = this.#done - from
      this.#lines.read(slice, from, to)
      this.#done += to - from
    }
    if (to < slice.length) this.#keep(slice.subarray(to))
  }

  #readHeld(): void {
    const length = this.#heldLength
    this.#heldLength = 0
    this.#dropping = false
    this.#lines.state.base = this.#done
    this.#lines.read(this.#held.subarray(0, length), 0, length)
    this.#done += length + this.#dropped
    this.#dropped = 0
  }

  /** Keeps an unfinished line; of a remark or text over the budget only what counts. */
  #keep(part: Uint8Array): void {
    if (this.#dropping) {
      this.#drop(part)
      return
    }
    this.#hold(part)
    if (this.#heldLength <= lineBudget) return
    const held = this.#held.subarray(0, this.#heldLength)
    const remark = held.indexOf(SEMICOLON)
    const counts = remark < 0 ? textHead : remark + 1
    if (!held.includes(0) && overBudget(latin1(held)))
      throw tooLong(this.#done, this.#lines.state.line + 1)
    this.#dropping = true
    this.#heldLength = Math.min(counts, held.length)
    this.#drop(held.slice(this.#heldLength))
  }

  /** Lets go of the rest of a long line, but for a NUL, which the line reader is to see. */
  #drop(part: Uint8Array): void {
    if (part.includes(0)) this.#hold(Uint8Array.of(0))
    else this.#dropped += part.length
  }

  #hold(part: Uint8Array): void {
    const needed = this.#heldLength + part.length
    if (needed > this.#held.length) {
      const larger = new Uint8Array(Math.max(needed, this.#held.length * 2))
      larger.set(this.#held.subarray(0, this.#heldLength))
      this.#held = larger
    }
    this.#held.set(part, this.#heldLength)
    this.#heldLength = needed
  }

  #end(): void {
    if (this.#given === 0) {
      throw new ReadStop({ code: 'empty', message: 'The file is empty: export or copy it again.' })
    }
    if (!this.#sniffed) this.#begin()
    if (this.#heldLength > 0) {
      const text = latin1(this.#held.subarray(0, Math.min(this.#heldLength, 4096)))
      const byte = this.#done
      this.#hold(Uint8Array.of(LF))
      this.#readHeld()
      const { state } = this.#lines
      // At its end a print has long drawn the filament back.
      const isFeeding = state.net > 0 && state.net === state.feed.get(toolColumn.peak)
      if (looksCut(text) || (isFeeding && beginsMove(text))) {
        state.remarks.findings.note('maybe_cut_short', byte, state.line)
      }
    }
    const open = this.#lines.loops.unclosed()
    if (open !== null) {
      throw new ReadStop({
        code: 'open_loop',
        message: 'A loop is opened and never closed: the file is cut short or damaged.',
        line: open,
      })
    }
    if (!this.#lines.sawCommand) {
      throw new ReadStop({
        code: 'no_machine_code',
        message:
          'The file has no machine code in it: no line begins with G, M or T and a number. Give the file that goes to the printer.',
        line: 1,
      })
    }
  }

  #conclude(): Outcome<PrintReading> {
    const lines = this.#lines
    const { state } = lines
    const layers = state.layers.layers(
      this.#given,
      state.line,
      state.bead.spiral && state.layers.count > 1,
    )
    if (layers.count > 0) state.tracks.endLayer(layers.count)
    const clock = this.#clock
    const ticket = clock?.ask() ?? 0
    const time = clock?.finish() ?? null
    const timeOf = clock === null ? null : (of: number): number => clock.timeOf(of)
    const end = { byte: this.#given, line: state.line }
    const families = joinEqual(
      state.tracks.all.map((track) =>
        readingOf(track, layers.count, { height: state.height, byte: end.byte, ticket }, timeOf),
      ),
    )
    if (families.every(({ tools }) => tools.every(({ peak_mm }) => peak_mm === 0))) {
      state.remarks.findings.note('nothing_drawn', end.byte, end.line)
    }
    const differ = familiesDiffer(families)
    if (differ !== null) state.remarks.findings.add({ ...differ, ...end })
    const {
      eUnit,
      eMode = 'code',
      diameter_mm: diameter = 1.75,
      madeFor_mm: madeFor,
    } = this.#options
    const volumetric = state.feed.volumetric
    const bead = state.bead.bead((Math.PI / 4) * (madeFor ?? diameter) ** 2, layers.step_mm)
    const counts: Counts = {
      moves: state.count('moves'),
      extrudingMoves: state.count('extruding'),
      arcs: state.count('arcs'),
      retractions: state.count('retractions'),
      firmwareRetractions: state.remarks.firmwareRetractions,
      toolChanges: lines.toolChanges,
      macroCalls: state.remarks.macroCalls,
    }
    const isModeOpen = eMode === 'code' && !state.feed.relative
    const unsaid = isModeOpen ? looksRelative(bead, counts, drawnBy(families[0]!)) : null
    if (unsaid !== null) {
      state.remarks.findings.add({ ...unsaid, byte: 0, line: 1 })
    } else if (bead !== null) {
      const judged = judgeBead(bead, {
        unitKnown: (eUnit ?? 'code') !== 'code' || state.remarks.findings.has('volumetric'),
        volumetric,
        diameter: madeFor ?? diameter,
        madeFor,
      })
      if (judged !== null) state.remarks.findings.add({ ...judged, byte: 0, line: 1 })
    }
    return accept({
      bytes: this.#given,
      lines: state.line,
      families,
      layers:
        timeOf === null
          ? layers
          : {
              ...layers,
              endTime_s: endTimes(layers.count, state.layerTickets.toArray(), ticket, timeOf),
            },
      stops: state.remarks.stops.map(({ ticket: asked, ...stop }) =>
        timeOf === null ? stop : { ...stop, time_s: timeOf(asked) },
      ),
      bead,
      silhouette: lines.silhouette(layers.step_mm),
      time,
      ...lines.plan(),
      counts,
      findings: state.remarks.findings.list(),
    })
  }
}

/**
 * Reads a whole file given as slices.
 *
 * @returns the reading, or why the file was refused
 */
export function readPrint(
  slices: Iterable<Uint8Array>,
  options: ReadOptions = {},
): Outcome<PrintReading> {
  const reader = new PrintReader(options)
  for (const slice of slices) {
    reader.push(slice)
    if (reader.refusal !== null) break
  }
  return reader.finish()
}

/** Index of the first line end, with an LF after a CR taken along; −1 when there is none. */
function lineEnd(slice: Uint8Array, from: number): number {
  for (let i = from; i < slice.length; i++) {
    if (slice[i] === LF) return i
    if (slice[i] === CR) return slice[i + 1] === LF ? i + 1 : i
  }
  return -1
}

const latin1 = (bytes: Uint8Array): string => {
  let text = ''
  for (const byte of bytes) text += String.fromCharCode(byte)
  return text
}

/** Times at which layers end: the last one's is the end of the file. */
const endTimes = (
  layers: number,
  tickets: Float64Array,
  atEnd: number,
  timeOf: (ticket: number) => number,
): Float64Array =>
  Float64Array.from({ length: layers }, (_, layer) => timeOf(tickets[layer] ?? atEnd))

/** Where a reading ends. */
interface EndOfFile {
  readonly height: number
  readonly byte: number
  readonly ticket: number
}

function readingOf(
  track: Track,
  layers: number,
  { height, byte, ticket }: EndOfFile,
  timeOf: ((ticket: number) => number) | null,
): FamilyReading {
  const tools: ToolReading[] = []
  track.state.peaks().forEach((peak, tool) => {
    const net = track.state.get(toolColumn.net, tool)
    if (peak < nothing && Math.abs(fromPicometres(net)) < nothing) return
    const recorder = track.recorder(tool)
    recorder.record(track.state.get(toolColumn.peak, tool), height, layers, byte, ticket)
    tools.push({
      tool,
      net_mm: fromPicometres(net),
      peak_mm: peak,
      startMacro_mm: layers === 0 ? peak : track.startMacroOf(tool),
      layerEnd_mm: track.layerEnds(tool, layers),
      curve: recorder.curve(timeOf),
    })
  })
  return { families: track.families.map(({ id }) => id), tools }
}

/** Joins readings whose peaks agree: families that differ only in what is fed after the end. */
function joinEqual(readings: readonly FamilyReading[]): FamilyReading[] {
  const groups: FamilyReading[] = []
  for (const reading of readings) {
    const same = groups.findIndex((each) => samePeaks(each.tools, reading.tools))
    const group = groups[same]
    if (group === undefined) groups.push(reading)
    else groups[same] = { ...group, families: [...group.families, ...reading.families] }
  }
  return groups
}

function samePeaks(a: readonly ToolReading[], b: readonly ToolReading[]): boolean {
  const left = drawing(a)
  const right = drawing(b)
  if (left.length !== right.length) return false
  return left.every(({ tool, peak_mm }, k) => {
    const other = right[k]
    const near = 1e-6 + 1e-9 * peak_mm
    return other?.tool === tool && Math.abs(peak_mm - other.peak_mm) <= near
  })
}

const drawnBy = ({ tools }: FamilyReading): number =>
  tools.reduce((sum, { peak_mm }) => sum + peak_mm, 0)

const drawing = (tools: readonly ToolReading[]): ToolReading[] =>
  tools.filter(({ peak_mm }) => peak_mm > 0)

/** A last line without an end that feeds, or stops in the middle of a word: prints end otherwise. */
const looksCut = (text: string): boolean =>
  /^\s*(?:N\d+\s*)?G0*[01235](?![\d.])[^;(]*(?:E[^;(]*|[A-Z.+-])$/i.test(text)

/** A last line without an end that is a move, or the begin of one. */
const beginsMove = (text: string): boolean =>
  /^\s*(?:N\d+\s*)?G0*[01235]?(?![\d.])[^;(]*$/i.test(text)
