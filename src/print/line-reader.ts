/**
 * The reader's engine: complete lines in; feed, layers and beads out.
 *
 * Nearly all lines are plain, and the kernel (plain-lines.ts, core/plain-lines.ts) reads those from
 * the bytes. It stops at the first line it does not know; `#odd` takes that as text and does
 * everything else. The kernel is fast and knows little, `#odd` is slow and complete, and reads plain
 * lines too: without the kernel everything still works, some twenty times slower.
 *
 * Firmware families: one feed state stands for all families that agree (see FeedState). While they
 * do, the kernel keeps E, net and peak of that state in the slots it shares with this class; while
 * they disagree it hands every move over. Every line that could split or join families is odd.
 *
 * Invariant between lines: slots, states and recorders describe everything before the line.
 */
import { applyCommand, type EUnit } from './apply-command.ts'
import { BeadSampler } from './bead.ts'
import { Column } from './column.ts'
import { type FamilyLine, familyLine, touchesDraw } from './family-line.ts'
import { FeedState, toolColumn } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import { LayerFinder } from './layer-finder.ts'
import { type LayerPlan, PlanTrace } from './layer-plan.ts'
import { type Command, lexLine, plainLexing } from './lex-line.ts'
import { overBudget, tooLong } from './line-budget.ts'
import { cellSize, drawSpacing, movesIn, nextCell } from './look-spacing.ts'
import { LoopStack, loopMark } from './loop-stack.ts'
import { motionLine } from './motion-line.ts'
import {
  askMove,
  checkOrigin,
  feedAll,
  feedMove,
  type Head,
  isMove,
  originOf,
} from './move-words.ts'
import { fromPicometres, picometresPerMm } from './picometres.ts'
import {
  type AxisWords,
  arcOfSlots,
  type Place,
  placeOfCommand,
  placeOfSlots,
  wayTo,
} from './place.ts'
import {
  letterBit,
  type PlainEvents,
  type PlainModes,
  plainLines,
  rowColumns,
  slot,
  slots,
  windowSize,
} from './plain-lines.ts'
import type { PrintClock } from './print-clock.ts'
import { RangeFold } from './range-fold.ts'
import { entryKind, type RangeLog, RangeLogger } from './range-log.ts'
import { RangeLost } from './range-lost.ts'
import { ReadStop } from './read-stop.ts'
import { Remarks, type Where } from './remarks.ts'
import { isHeating, isHoming, SettingUp } from './setting-up.ts'
import type { Silhouette } from './silhouette.ts'
import { SilhouetteGrid } from './silhouette-grid.ts'
import { TrackGroup } from './track-group.ts'

const lineRunBudget = 16_000_000
/** What beginning a pass of a loop costs besides its lines, in lines. */
const passCost = 16
const layerBudget = 200_000
/** Above this many mm to the unit of E every feed is checked. */
const usualFactor = 100
/** A single feed that some boards refuse, pm. */
const longFeed = 200 * picometresPerMm
const axes = [
  ['X', slot.x],
  ['Y', slot.y],
  ['Z', slot.z],
] as const
const bitE = letterBit('E')
const bitF = letterBit('F')

const LF = 10
const CR = 13

export class LineReader {
  readonly remarks: Remarks
  readonly bead: BeadSampler = new BeadSampler()
  readonly layers: LayerFinder
  readonly loops: LoopStack = new LoopStack()
  readonly tracks: TrackGroup
  /** Byte in the machine code of index 0 of the buffer being read. */
  base = 0
  /** The last buffer ended in CR: an LF at the start of the next one belongs to it. */
  afterCR = false
  toolChanges = 0

  /** Own slots; the kernel's while it runs. */
  #slots: Float64Array = new Float64Array(slots)
  #axesInch = false
  readonly #settingUp = new SettingUp()
  #linesRun = 0
  /** While a range is read of whose begin nothing is known: what is noted of it. */
  #log: RangeLogger | null = null
  #inRange = false
  readonly #families: readonly FirmwareFamily[]
  readonly #eUnit: EUnit
  readonly #drawing: SilhouetteGrid | PlanTrace | null
  readonly #clock: PrintClock | null
  /** Tickets for the times at which layers end. */
  readonly #layerTickets = new Column()
  readonly #ask: () => number = () => this.#clock?.ask() ?? 0
  readonly #kernel = plainLines()
  readonly #events: PlainEvents = this.#makeEvents()
  /** Index in the buffer where the kernel's window begins. */
  #windowAt = 0
  readonly #lend = (lent: Float64Array): PlainEvents => {
    this.#slots = lent
    return this.#events
  }

  /** @param drawing - what of the print is drawn on the way: its silhouette, or the plan of a layer */
  constructor(
    families: readonly FirmwareFamily[],
    eUnit: EUnit,
    diameter: number,
    drawing: 'silhouette' | number | null,
    clock: PrintClock | null,
  ) {
    this.#clock = clock
    this.#families = families
    this.#eUnit = eUnit
    this.remarks = new Remarks(
      eUnit === 'code',
      families.some(({ volumetric }) => volumetric === 'none'),
    )
    const state = new FeedState(diameter)
    state.volumetric = eUnit === 'mm3'
    this.tracks = new TrackGroup(families, state)
    this.layers = new LayerFinder((layer) => this.#endLayer(layer))
    this.#drawing =
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

  /** A counter or value of the slots. */
  count(name: keyof typeof slot): number {
    return this.#slots[slot[name]] as number
  }

  /** The silhouette of what was read; null where nothing is drawn, or it was not asked for. */
  silhouette(step: number): Silhouette | null {
    return this.#drawing instanceof SilhouetteGrid
      ? this.#drawing.silhouette(step, this.#slots)
      : null
  }

  /** The plan of a layer, where it was asked for. */
  plan(): { readonly plan?: LayerPlan } {
    return this.#drawing instanceof PlanTrace ? { plan: this.#drawing.plan() } : {}
  }

  #set(name: keyof typeof slot, value: number): void {
    this.#slots[slot[name]] = value
  }

  #add(name: keyof typeof slot): void {
    this.#set(name, this.count(name) + 1)
  }

  /** Whether any command was seen. */
  get sawCommand(): boolean {
    return this.count('commands') > 0 || this.count('moves') > 0
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
    if (this.#clock !== null && layer > 0) this.#layerTickets.push(this.#clock.ask())
  }

  /** Tickets for the times at which layers end; the last layer ends with the file. */
  layerTickets(): Float64Array {
    return this.#layerTickets.toArray()
  }

  /**
   * Reads complete lines.
   *
   * @param end - index after the last line's end
   * @throws ReadStop
   */
  read(buf: Uint8Array, from: number, end: number): void {
    let i = from
    if (this.afterCR && i < end) {
      this.afterCR = false
      if (buf[i] === LF) i++
      else this.#loneCR(i)
    }
    this.loops.enter(buf, from, i)
    while (i < end) {
      const to = this.#kernel === null ? i : windowEnd(buf, i, end)
      i = to > i ? this.#readWindow(buf, i, to, end) : this.#odd(buf, i, end)
    }
    if (buf[end - 1] === CR) this.afterCR = true
    this.loops.leave(buf, end)
  }

  /** Reads lines that fit the kernel; returns early when a loop's replay has taken the kernel. */
  #readWindow(buf: Uint8Array, from: number, to: number, end: number): number {
    const kernel = this.#kernel as NonNullable<ReturnType<typeof plainLines>>
    kernel.fill(buf.subarray(from, to))
    const { fills } = kernel
    this.#windowAt = from
    let i = from
    while (i < to && kernel.fills === fills) {
      this.#load()
      if (this.#log !== null && !this.#modes().plain) {
        i = this.#noteOdd(buf, i, end)
        continue
      }
      const lines = { from: i - from, to: to - from, byte: this.base + from }
      i = from + kernel.run(lines, this.#modes(), this.#slots, this.#lend)
      this.#store()
      if (i < to) i = this.#log === null ? this.#odd(buf, i, end) : this.#noteOdd(buf, i, end)
    }
    return i
  }

  /**
   * Begins a range of a file whose head, or another range, was read before: only modes are kept.
   *
   * @param apart - how far apart the curve is looked at, pm, a power of two
   */
  beginRange(apart: number): void {
    const { state } = this.tracks.first
    this.#inRange = true
    this.#log = null
    this.#slots.fill(0)
    for (const [, at] of axes) this.#slots[at] = Number.NaN
    this.#set('lookAt', Number.NaN)
    this.#set('ownSpacing', apart)
    state.e = state.relative ? 0 : Number.NaN
    state.set(toolColumn.net, 0)
    this.#lookForEveryLayer()
  }

  /** Whether it is known where the nozzle and E stand, so that a range can be noted. */
  get canNote(): boolean {
    const { e } = this.tracks.first.state
    const known = axes.every(([, at]) => Number.isFinite(this.#slots[at]))
    return known && Number.isFinite(e) && this.#modes().plain
  }

  /** Begins to note what is read of the range, from the first line of a cell, which begins at `byte`. */
  noteRange(byte: number): void {
    const { state } = this.tracks.first
    state.setAll(toolColumn.net, 0)
    this.#lookForEveryLayer()
    this.#log = new RangeLogger(byte)
    this.#noteModes(byte)
  }

  /** Net feed of the active tool, pm. */
  get net(): number {
    return this.tracks.first.state.get(toolColumn.net)
  }

  /** What was noted up to `byte`, where a line begins; null where nothing was. */
  endRange(byte: number): RangeLog | null {
    const log = this.#log
    if (log === null) return null
    log.add(entryKind.state, byte, this.#slots)
    log.reach(byte)
    return log.log()
  }

  /** Whether it makes no sense to note more of a range, noted up to `byte`. */
  rangeIsLongAt(byte: number): boolean {
    return this.#log?.isLongAt(byte) ?? false
  }

  /** An odd line of a range: the line itself is noted, and what is thought to hold behind it. */
  #noteOdd(buf: Uint8Array, from: number, end: number): number {
    const log = this.#log as RangeLogger
    let stop = from
    while (buf[stop] !== LF && buf[stop] !== CR) stop++
    const next = buf[stop] === CR && buf[stop + 1] === LF ? stop + 2 : stop + 1
    log.addLine(buf.subarray(from, next), this.base + from, this.#slots)
    this.#odd(buf, from, end)
    this.#lookForEveryLayer()
    this.#load()
    this.#noteModes(this.base + next)
    return next
  }

  #noteModes(byte: number): void {
    const { state } = this.tracks.first
    // The highest net feed is counted anew: what is fed may have jumped, or be another tool's.
    state.set(toolColumn.peak, state.get(toolColumn.net))
    this.#load()
    const own = [...this.#whatHolds(), this.count('ownSpacing')]
    this.#log?.add(entryKind.holds, byte, this.#slots, own)
    this.#log?.reach(byte)
  }

  /** As a log has it. */
  #whatHolds(): readonly number[] {
    const { plain, relative, scale, factor } = this.#modes()
    const { tool } = this.tracks.first.state
    return [plain ? 1 : 0, relative ? 1 : 0, scale, factor, tool]
  }

  /** Of a range every extruding move that may be another layer's is noted. */
  #lookForEveryLayer(): void {
    this.#set('top', Number.NEGATIVE_INFINITY)
    this.#set('floor', Number.POSITIVE_INFINITY)
  }

  /**
   * Goes on behind a range that another reader has noted, as if it had been read; lines that do not
   * follow from the ones before are read here.
   *
   * @returns the byte up to which the range has been read: its end, or where what was thought to hold
   *   did not; its begin when nothing could be used
   */
  fold(log: RangeLog): number {
    if (this.#drawing !== null || this.#clock !== null || this.#kernel === null) return log.from
    if (this.loops.isOpen) return log.from
    const fold = new RangeFold(log, {
      slots: this.#slots,
      holds: () => {
        this.#load()
        return this.#whatHolds()
      },
      store: () => this.#store(),
      drawSpacing: () => drawSpacing(this.tracks.first.state.get(toolColumn.peak)),
      look: (isCell, height, byte) => this.#look(isCell, height, byte),
      events: (byte) => {
        this.base = byte
        this.#windowAt = 0
        return this.#events
      },
      read: (lines, from, to, byte) => {
        this.base = byte - from
        this.read(lines, from, to)
      },
    })
    return fold.run()
  }

  #modes(): PlainModes {
    const { state } = this.tracks.first
    const factor = state.factor()
    const plain =
      this.tracks.single && !state.axesRelative && !this.#axesInch && factor < usualFactor
    const drawing = this.#drawing !== null
    const timing = this.#clock !== null
    return { plain, drawing, timing, relative: state.relative, scale: state.scale, factor }
  }

  /** What to do with the kernel's events; `at` is counted from the window's start. */
  #makeEvents(): PlainEvents {
    const byteAt = (at: number): number => this.base + this.#windowAt + at
    return {
      layer: (height, at) => {
        if (this.#inRange) {
          this.#noteLayer(height, byteAt(at))
          return
        }
        this.#store()
        this.#kernel?.takeMoves()
        this.#lookForLayer(height, byteAt(at), this.line)
      },
      look: (height, at, cell) => {
        if (this.#note(entryKind.look, byteAt(at), height, cell ? 1 : 0)) return
        this.#store()
        this.#kernel?.takeMoves()
        this.#record(height, byteAt(at))
      },
      rows: (rows, count) => {
        const recorder = this.tracks.first.recorder()
        for (let row = 0; row < count * rowColumns; row += rowColumns) {
          const draw = rows[row] as number
          // Others were due before rows were thinned.
          if (draw < recorder.next) continue
          const [height, byte] = [rows[row + 1] as number, rows[row + 2] as number]
          recorder.record(draw, height, this.layers.count, byte, 0)
        }
        this.#loadRows()
      },
      longFeed: (at) => {
        if (!this.#note(entryKind.longFeed, byteAt(at))) this.#noteLongFeed(byteAt(at))
      },
      bead: (feed, dx, dy, dz, stands) => {
        if (this.#note(entryKind.bead, 0, feed, dx, dy, dz, stands)) return
        this.bead.add(feed, dx, dy, dz, stands)
      },
      origin: (value) => {
        if (this.#note(entryKind.origin, 0, value)) this.#lookForEveryLayer()
        this.#store()
        this.#setUp(false)
        this.tracks.setOrigin(value)
        this.#load()
      },
      move: (seen, arc, at) => this.#handedMove(seen, arc, byteAt(at)),
      draws: (seen, arc) => {
        this.#drawing?.draw(wayTo(this.#slots, this.#placeInSlots(seen, arc)), this.#slots)
      },
      timed: (moves, count) => this.#clock?.planner.take(moves, count),
      timedArc: (seen, arc, feed) => {
        this.#kernel?.takeMoves()
        this.#time(this.#placeInSlots(seen, arc), feed)
      },
      longLine: (at) => {
        if (this.#note(entryKind.longLine, byteAt(at))) return
        this.remarks.findings.note('long_line', byteAt(at), this.line + 1)
      },
      loneCR: (at) => {
        if (this.#inRange) throw new RangeLost()
        this.#loneCR(this.#windowAt + at)
      },
    }
  }

  /** Notes an event of a range that is noted; true when it concerns nobody else here. */
  #note(
    kind: (typeof entryKind)[keyof typeof entryKind],
    byte: number,
    ...own: readonly number[]
  ): boolean {
    this.#log?.add(kind, byte, this.#slots, own)
    return this.#inRange
  }

  /** A climbing move may be followed by a level one that opens a layer; a second level one can not. */
  #noteLayer(height: number, byte: number): void {
    const climbs = height > this.height
    this.#note(entryKind.layer, byte, height)
    if (climbs) this.#lookForEveryLayer()
    else {
      this.#set('top', height)
      this.#set('floor', height)
    }
  }

  /** Where a plain move goes that the kernel has put into the slots. */
  #placeInSlots(seen: number, arc: number): Omit<Place, 'namesXY'> {
    return {
      x: this.count('wordX'),
      y: this.count('wordY'),
      z: this.count('wordZ'),
      arc: arcOfSlots(this.#slots, seen, arc, 1),
    }
  }

  /** Lets the clock know of a move, before the nozzle goes there. @param feed - mm */
  #time({ x, y, z, arc }: Omit<Place, 'namesXY'>, feed: number): void {
    if (this.#clock === null) return
    const from = { x: this.count('x'), y: this.count('y'), z: this.height }
    const speed = this.count('wordF')
    const to = { x, y, z }
    if (arc === null || arc.about === null) {
      this.#clock.move(x - from.x, y - from.y, z - from.z, feed, speed)
    } else {
      const { clockwise, about } = arc
      this.#clock.arc({ from, to, clockwise, about }, feed, speed)
    }
  }

  #loneCR(at: number): void {
    this.remarks.findings.note('lone_cr', this.base + at, this.line)
  }

  #noteLongFeed(byte: number): void {
    this.remarks.findings.note('long_feed', byte, this.line)
  }

  /** Brings what the kernel changes of the single state into the slots. */
  #load(): void {
    const track = this.tracks.first
    this.#set('e', track.state.e)
    this.#set('net', track.state.get(toolColumn.net))
    this.#set('peak', track.state.get(toolColumn.peak))
    if (!this.#inRange) {
      this.#loadRows()
      this.#set('top', this.layers.top)
      this.#set('floor', this.layers.floor)
    }
    this.#drawing?.useTool(track.state.tool, this.#slots)
  }

  /** Tells the kernel where rows of the curve are due. */
  #loadRows(): void {
    const track = this.tracks.first
    this.#set('due', track.nextRow())
    this.#kernel?.setRowStep(track.rowStep())
  }

  #store(): void {
    if (!this.tracks.single) return
    const { state } = this.tracks.first
    state.e = this.count('e')
    state.set(toolColumn.net, this.count('net'))
    state.set(toolColumn.peak, this.count('peak'))
  }

  #lookForLayer(height: number, byte: number, line: number): void {
    this.layers.move(this.height, height, byte, line)
    this.#set('top', this.layers.top)
    this.#set('floor', this.layers.floor)
  }

  /** A plain move in relative or inch coordinates, or while families disagree. */
  #handedMove(seen: number, arc: number, byte: number): void {
    const place = placeOfSlots(this.#slots, seen, arc, this.#axisWords(this.tracks.first.state))
    if ((seen & bitF) !== 0) this.#setSpeed(this.count('wordF'))
    const feeding = (seen & bitE) !== 0
    let fed = 0
    if (feeding) {
      const value = this.count('wordE')
      const feeds = this.tracks.all.map(({ state }) => state.ask(value))
      fed = feeds[0] as number
      this.#extrude(fed, place, byte)
      this.tracks.all.forEach(({ state }, k) => state.feed(feeds[k] as number))
    }
    this.#time(place, fromPicometres(fed))
    this.#goTo(place)
    if (feeding) this.#lookAtCurve(byte)
    this.#load()
  }

  /** @param speed - in the unit of the axes a minute */
  #setSpeed(speed: number): void {
    this.#set('wordF', speed * (this.#axesInch ? 25.4 : 1))
  }

  #axisWords({ axesRelative }: FeedState): AxisWords {
    return { unit: this.#axesInch ? 25.4 : 1, relative: axesRelative }
  }

  #goTo({ x, y, z }: Place): void {
    this.#set('x', x)
    this.#set('y', y)
    this.#set('z', z)
  }

  /** Counts a move by what the reference families feed on it, and looks for a layer. */
  #extrude(feed: number, place: Place, byte: number): void {
    if (feed > longFeed) this.#noteLongFeed(byte)
    if (feed < 0) this.#add('retractions')
    if (feed <= 0 || !(place.namesXY || place.arc !== null)) return
    this.#add('extruding')
    const dx = place.x - this.count('x')
    const dy = place.y - this.count('y')
    const travels = dx !== 0 || dy !== 0
    if (travels || place.arc !== null) {
      this.#lookForLayer(place.z, byte, this.line)
      if (this.#drawing !== null) {
        this.#drawing.useTool(this.tracks.first.state.tool, this.#slots)
        this.#drawing.draw(wayTo(this.#slots, place), this.#slots)
      }
    }
    if (place.arc !== null) this.#add('extrudingArcs')
    const stands = this.#standsFor(byte)
    if (place.arc !== null || !travels || stands === 0) return
    this.bead.add(fromPicometres(feed), dx, dy, place.z - this.height, stands)
  }

  /** For how many extruding moves this one stands; 0 when it is not to be sampled: as the kernel does. */
  #standsFor(byte: number): number {
    if (byte < this.count('beadAt')) return 0
    this.#set('beadAt', nextCell(byte))
    return movesIn(cellSize(byte))
  }

  /** Looks at the curve behind a line with an E word, where that is due: as the kernel does. */
  #lookAtCurve(byte: number): void {
    const isCell = byte >= this.count('curveAt')
    if (isCell) this.#set('curveAt', nextCell(byte))
    if (this.tracks.single) this.#look(isCell, this.height, byte)
    else this.#lookAnew(byte)
  }

  /** Looks at the curve where a cell of it begins, or so much was fed since the last look. */
  #look(isCell: boolean, height: number, byte: number): void {
    if (isCell) this.#beginLooks()
    else {
      const passed = this.tracks.first.state.get(toolColumn.net) - this.count('lookAt')
      if (!(passed >= 0)) return
      const apart = this.count('spacing')
      this.#set('lookAt', this.count('lookAt') + (Math.floor(passed / apart) + 1) * apart)
    }
    this.#record(height, byte)
  }

  /** Looks at the curve, and from here on as where a cell begins. */
  #lookAnew(byte: number): void {
    this.#beginLooks()
    this.#record(this.height, byte)
  }

  #beginLooks(): void {
    const { state } = this.tracks.first
    const apart = this.count('ownSpacing') || drawSpacing(state.get(toolColumn.peak))
    this.#set('spacing', apart)
    this.#set('lookAt', state.get(toolColumn.net) + apart)
  }

  /** Adds the rows that are due. */
  #record(height: number, byte: number): void {
    if (this.#inRange) return
    this.tracks.record(height, this.layers.count, byte, this.#ask)
    this.#loadRows()
  }

  /** Reads one line of any kind and returns where the next begins. */
  #odd(buf: Uint8Array, start: number, end: number): number {
    let stop = start
    while (buf[stop] !== LF && buf[stop] !== CR) stop++
    this.#add('line')
    const text = textOf(buf, start, stop)
    this.#refuseBadLine(text, this.base + start)
    let next = stop + 1
    if (buf[stop] === CR && next < end) {
      if (buf[next] === LF) next++
      else this.#loneCR(next)
    }
    if (!this.#motionLine(text)) this.#readText(text, buf, start, next)
    return next
  }

  /** Reads a line that counts for time alone. */
  #motionLine(text: string): boolean {
    const command = this.#clock === null ? null : motionLine(text)
    if (command === null) return false
    this.#set('commands', 1)
    this.#clock?.command(command, this.tracks.first.state.tool)
    return true
  }

  #refuseBadLine(text: string, byte: number): void {
    const nul = text.indexOf('\0')
    if (nul >= 0) {
      throw new ReadStop({
        code: 'nul_byte',
        message:
          'The file holds NUL bytes: it is damaged, half written, or no machine code. Export or copy it again.',
        at: byte + nul,
        line: this.line,
      })
    }
    if (overBudget(text)) throw tooLong(byte, this.line)
  }

  #readText(text: string, buf: Uint8Array, start: number, next: number): void {
    const line = familyLine(text, this.#families)
    const byte = this.base + start
    for (const command of line.perFamily[0] ?? []) this.#remark(command, text, byte)
    const [plain] = lexLine(text, plainLexing)
    if (plain !== undefined && this.#loop(plain, buf, start, next)) return
    if (!line.all.some(touchesDraw)) return
    if (line.all.some((command) => isMove(command) || isOrigin(command))) {
      this.#set('commands', 1)
      this.remarks.oddMove(text, byte, this.line)
    }
    line.all.forEach(checkOrigin)
    this.#applyEach(line, byte)
  }

  /** Notes a command, and takes a step of setting up. */
  #remark(command: Command, text: string, byte: number): void {
    const { letter, code, words } = command
    if (letter !== '') this.#set('commands', 1)
    if (letter === 'T' && code >= 0 && code < 100 && code !== this.tracks.first.state.tool) {
      this.toolChanges++
    }
    this.remarks.command(command, text, () => this.#where(byte))
    if (!isMove(command)) this.#clock?.command(command, this.tracks.first.state.tool)
    if (isHoming(command) || isHeating(command)) this.#setUp(true)
    else if (letter === 'M' && (code === 82 || code === 83)) this.#setUp(false)
    else if (isOrigin(command) && words.get('E')?.value != null) this.#setUp(false)
  }

  #where(byte: number): Where {
    return {
      byte,
      line: this.line,
      layer: this.layers.count,
      height_mm: this.height,
      draw_mm: this.tracks.first.state.peaks(),
      ask: this.#ask,
    }
  }

  /** A step of setting up: while it counts, what was drawn so far is start macro. */
  #setUp(hard: boolean): void {
    const drawn = {
      extruding: this.count('extruding'),
      arcs: this.count('extrudingArcs'),
      layers: this.layers.count,
    }
    if (!this.#settingUp.counts(hard, drawn)) return
    this.layers.forget()
    this.#layerTickets.clear()
    this.#drawing?.forget(this.#slots)
    this.bead.forget()
    this.remarks.forgetLayers()
    this.tracks.forgetLayers()
  }

  /** Applies a line's commands to each family's state, then joins the states that are equal. */
  #applyEach({ perFamily, alone }: FamilyLine, byte: number): void {
    if (alone !== undefined && isMove(alone)) {
      this.#move(this.tracks.heads(), byte, () => alone)
      return
    }
    const origin = alone === undefined ? undefined : originOf(alone)
    if (alone !== undefined && origin !== undefined) {
      this.tracks.setOrigin(origin)
      this.#followAxes(alone)
      return
    }
    this.#applyApart(perFamily, byte)
  }

  #applyApart(perFamily: FamilyLine['perFamily'], byte: number): void {
    const fedBefore = this.tracks.first.state.get(toolColumn.net)
    const toolBefore = this.tracks.first.state.tool
    let moved = false
    const heads = this.tracks.headsOfFamilies().map(({ family, track, state }) => ({
      family,
      track,
      state: state.clone(),
    }))
    const length = Math.max(...perFamily.map((list) => list.length))
    for (let k = 0; k < length; k++) {
      const command = perFamily[0]?.[k]
      if (command !== undefined && isMove(command)) {
        moved = true
        this.#move(heads, byte, (head) => perFamily[head]?.[k])
        continue
      }
      if (command !== undefined) this.#followAxes(command)
      heads.forEach((head, at) => this.#apply(head, perFamily[at]?.[k]))
    }
    this.tracks.regroup(heads)
    const { state } = this.tracks.first
    if (!moved && state.tool === toolBefore) {
      // Firmware retraction: the only feed without a move.
      this.#clock?.feed(fromPicometres(state.get(toolColumn.net) - fedBefore))
    }
    this.#lookAnew(byte)
  }

  #apply(head: Head, command: Command | undefined): void {
    if (command === undefined) return
    if (isMove(command)) feedMove(head, command)
    else applyCommand(head.state, head.family, command, this.#eUnit)
  }

  /** One move for every state given; the first decides the position and the layers. */
  #move(
    heads: readonly Head[],
    byte: number,
    commandOf: (head: number) => Command | undefined,
  ): void {
    const command = commandOf(0) as Command
    const { state } = heads[0] as Head
    const place = placeOfCommand(this.#slots, command, this.#axisWords(state))
    this.#add('moves')
    if (place.arc !== null) this.#add('arcs')
    const feeds = heads.map((head, k) => {
      const own = commandOf(k)
      return own === undefined || !isMove(own) ? null : askMove(head, own)
    })
    const fed = feeds[0]?.reduce((a, b) => a + b, 0) ?? 0
    this.#extrude(fed, place, byte)
    const speed = command.words.get('F')?.value
    if (speed != null && Number.isFinite(speed)) this.#setSpeed(speed)
    this.#time(place, fromPicometres(fed))
    heads.forEach((head, k) => {
      const own = commandOf(k)
      const feed = feeds[k]
      if (feed != null) feedAll(head.state, feed)
      else if (own !== undefined && !isMove(own)) this.#apply(head, own)
    })
    this.#goTo(place)
    // Other tools' curves are looked at only here.
    if (feeds.some((feed) => feed != null && feed.length > 1)) this.#lookAnew(byte)
    else if (feeds.some((feed) => feed != null)) this.#lookAtCurve(byte)
  }

  /** Units and G92 of the axes, which all families read alike. */
  #followAxes({ letter, code, words }: Command): void {
    if (letter !== 'G') return
    if (code === 20) this.#axesInch = true
    else if (code === 21) this.#axesInch = false
    else if (code === 92) {
      for (const [axis, at] of axes) {
        const value = words.get(axis)?.value
        if (value == null || !Number.isFinite(value)) continue
        this.#slots[at] = value * (this.#axesInch ? 25.4 : 1)
      }
    }
  }

  /** Opens, closes and replays loops; true when the line was one of theirs. */
  #loop(command: Command, buf: Uint8Array, start: number, next: number): boolean {
    const mark = loopMark(command)
    if (mark === null) return false
    this.#set('commands', 1)
    this.remarks.findings.note('loop', this.base + start, this.line)
    if (this.#inRange) throw new RangeLost()
    if (mark.opens) {
      this.loops.open({
        times: mark.times,
        buf,
        from: next,
        byte: this.base + next,
        line: this.line,
        linesRun: this.#linesRun,
      })
      return true
    }
    const loop = this.loops.close(buf, start)
    if (loop === null) return true
    const pass = this.#linesRun - loop.linesRun + this.line - loop.line + passCost
    const linesRun = this.#linesRun + pass * (loop.times - 1)
    if (linesRun > lineRunBudget) {
      throw new ReadStop({
        code: 'too_many_lines',
        message: `The file's loops run more than ${lineRunBudget / 1e6} million lines: check the counts.`,
        line: loop.line,
      })
    }
    const { line, base, afterCR } = this
    this.afterCR = false
    for (let k = 1; k < loop.times; k++) {
      this.#set('line', loop.line)
      this.base = loop.byte
      this.#set('curveAt', loop.byte)
      this.#set('beadAt', loop.byte)
      this.read(loop.body, 0, loop.body.length)
    }
    this.#set('line', line)
    this.base = base
    this.afterCR = afterCR
    this.#linesRun = linesRun
    return true
  }
}

const isOrigin = ({ letter, code }: Command): boolean => letter === 'G' && code === 92

/** End of the last whole line that fits the kernel's window; `from` when not even one does. */
function windowEnd(buf: Uint8Array, from: number, end: number): number {
  if (end - from <= windowSize) return end
  let to = from + windowSize
  while (to > from && buf[to - 1] !== LF && (buf[to - 1] !== CR || buf[to] === LF)) to--
  return to
}

function textOf(buf: Uint8Array, from: number, to: number): string {
  let text = ''
  for (let i = from; i < to; i += 8192) {
    text += String.fromCharCode(...buf.subarray(i, Math.min(i + 8192, to)))
  }
  return text
}
