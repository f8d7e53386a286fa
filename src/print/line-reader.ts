/**
 * The reader's engine: complete lines in; feed, layers and beads out.
 *
 * Nearly all lines are plain, and the kernel (plain-lines.ts, core/plain-lines.ts) reads those from
 * the bytes. It stops at the first line it does not know; `OddLines` takes that as text and does
 * everything else. The kernel is fast and knows little, `OddLines` is slow and complete, and reads plain
 * lines too: without the kernel everything still works, some twenty times slower.
 *
 * Firmware families: one feed state stands for all families that agree (see FeedState). While they
 * do, the kernel keeps E, net and peak of that state in the slots it shares with `ReaderState`; while
 * they disagree it hands every move over. Every line that could split or join families is odd.
 *
 * What is one file's work: `ReaderState` what has been found, `MoveTaker` a move, `CurveLooks` the
 * draw curve, `LoopReplay` loops, `RangeNotes` a range read apart. This file cuts lines and windows and
 * tells the rooms of the kernel's events.
 */
import { CurveLooks } from './curve-looks.ts'
import { type LayerPlan, PlanTrace } from './layer-plan.ts'
import { LoopReplay } from './loop-replay.ts'
import type { LoopStack } from './loop-stack.ts'
import { MoveTaker } from './move-taker.ts'
import { OddLines } from './odd-lines.ts'
import { type PlainEvents, type PlainLines, windowSize } from './plain-lines.ts'
import { RangeFold } from './range-fold.ts'
import { entryKind, type RangeLog } from './range-log.ts'
import { RangeLost } from './range-lost.ts'
import { RangeNotes } from './range-notes.ts'
import { type ReaderOrder, ReaderState } from './reader-state.ts'
import type { Silhouette } from './silhouette.ts'
import { SilhouetteGrid } from './silhouette-grid.ts'

const LF = 10
const CR = 13

export class LineReader {
  readonly state: ReaderState
  /** A range read apart. */
  readonly notes: RangeNotes
  readonly #looks: CurveLooks
  readonly #moves: MoveTaker
  readonly #odd: OddLines
  readonly #loops: LoopReplay
  readonly #events: PlainEvents
  /** Index in the buffer where the kernel's window begins. */
  #windowAt = 0
  readonly #lend = (lent: Float64Array): PlainEvents => {
    this.state.slots = lent
    return this.#events
  }

  constructor(order: ReaderOrder) {
    this.state = new ReaderState(order)
    this.notes = new RangeNotes(this.state)
    this.#looks = new CurveLooks(this.state)
    this.#moves = new MoveTaker(this.state, this.#looks)
    this.#odd = new OddLines(this.state, this.#moves, this.#looks)
    this.#loops = new LoopReplay(this.state, (body) => this.read(body, 0, body.length))
    this.#events = this.#makeEvents()
  }

  get loops(): LoopStack {
    return this.#loops.stack
  }

  get toolChanges(): number {
    return this.#odd.toolChanges
  }

  /** Whether any command was seen. */
  get sawCommand(): boolean {
    return this.state.count('commands') > 0 || this.state.count('moves') > 0
  }

  /** The silhouette of what was read; null where nothing is drawn, or it was not asked for. */
  silhouette(step: number): Silhouette | null {
    const { drawing, slots } = this.state
    return drawing instanceof SilhouetteGrid ? drawing.silhouette(step, slots) : null
  }

  /** The plan of a layer, where it was asked for. */
  plan(): { readonly plan?: LayerPlan } {
    const { drawing } = this.state
    return drawing instanceof PlanTrace ? { plan: drawing.plan() } : {}
  }

  /**
   * Reads complete lines.
   *
   * @param end - index after the last line's end
   * @throws ReadStop
   */
  read(buf: Uint8Array, from: number, end: number): void {
    const { state } = this
    let i = from
    if (state.afterCR && i < end) {
      state.afterCR = false
      if (buf[i] === LF) i++
      else this.#loneCR(i)
    }
    this.loops.enter(buf, from, i)
    while (i < end) {
      const to = state.kernel === null ? i : windowEnd(buf, i, end)
      i = to > i ? this.#readWindow(buf, i, to, end) : this.#readOdd(buf, i, end)
    }
    if (buf[end - 1] === CR) state.afterCR = true
    this.loops.leave(buf, end)
  }

  /** Reads lines that fit the kernel; returns early when a loop's replay has taken the kernel. */
  #readWindow(buf: Uint8Array, from: number, to: number, end: number): number {
    const { state, notes } = this
    const kernel = state.kernel as PlainLines
    kernel.fill(buf.subarray(from, to))
    const { fills } = kernel
    this.#windowAt = from
    let i = from
    while (i < to && kernel.fills === fills) {
      state.load()
      if (notes.isNoting && !state.modes().plain) {
        i = this.#noteOdd(buf, i, end)
        continue
      }
      const lines = { from: i - from, to: to - from, byte: state.base + from }
      i = from + kernel.run(lines, state.modes(), state.slots, this.#lend)
      state.store()
      if (i < to) i = notes.isNoting ? this.#noteOdd(buf, i, end) : this.#readOdd(buf, i, end)
    }
    return i
  }

  /** Reads one line of any kind and returns where the next begins. */
  #readOdd(buf: Uint8Array, start: number, end: number): number {
    const { state } = this
    const stop = lineStop(buf, start)
    state.add('line')
    const text = textOf(buf, start, stop)
    const byte = state.base + start
    this.#odd.refuseBad(text, byte)
    let next = stop + 1
    if (buf[stop] === CR && next < end) {
      if (buf[next] === LF) next++
      else this.#loneCR(next)
    }
    const place = { buf, start, next }
    this.#odd.read(text, byte, (command) => this.#loops.take(command, place))
    return next
  }

  /** An odd line of a range: the line itself is noted, and what is thought to hold behind it. */
  #noteOdd(buf: Uint8Array, from: number, end: number): number {
    const { base } = this.state
    const stop = lineStop(buf, from)
    const next = buf[stop] === CR && buf[stop + 1] === LF ? stop + 2 : stop + 1
    this.notes.noteLine(buf.subarray(from, next), base + from)
    this.#readOdd(buf, from, end)
    this.notes.behindLine(base + next)
    return next
  }

  /**
   * Goes on behind a range that another reader has noted, as if it had been read; lines that do not
   * follow from the ones before are read here.
   *
   * @returns the byte up to which the range has been read: its end, or where what was thought to hold
   *   did not; its begin when nothing could be used
   */
  fold(log: RangeLog): number {
    const { state } = this
    const isPlain = state.drawing === null && state.clock === null && state.kernel !== null
    if (!isPlain || this.loops.isOpen) return log.from
    const fold = new RangeFold(log, {
      slots: state.slots,
      holds: () => {
        state.load()
        return this.notes.whatHolds()
      },
      store: () => state.store(),
      drawSpacing: () => this.#looks.spacing,
      look: (isCell, height, byte) => this.#looks.look(isCell, height, byte),
      events: (byte) => {
        state.base = byte
        this.#windowAt = 0
        return this.#events
      },
      read: (lines, from, to, byte) => {
        state.base = byte - from
        this.read(lines, from, to)
      },
    })
    return fold.run()
  }

  /** What to do with the kernel's events; `at` is counted from the window's start. */
  #makeEvents(): PlainEvents {
    const { state, notes } = this
    const byteAt = (at: number): number => state.base + this.#windowAt + at
    return {
      layer: (height, at) => {
        if (state.inRange) {
          notes.noteLayer(height, byteAt(at))
          return
        }
        state.store()
        state.kernel?.takeMoves()
        state.lookForLayer(height, byteAt(at))
      },
      look: (height, at, cell) => {
        if (notes.note(entryKind.look, byteAt(at), height, cell ? 1 : 0)) return
        state.store()
        state.kernel?.takeMoves()
        this.#looks.record(height, byteAt(at))
      },
      rows: (rows, count) => this.#looks.take(rows, count),
      longFeed: (at) => {
        if (!notes.note(entryKind.longFeed, byteAt(at))) this.#moves.noteLongFeed(byteAt(at))
      },
      bead: (feed, dx, dy, dz, stands) => {
        if (notes.note(entryKind.bead, 0, feed, dx, dy, dz, stands)) return
        state.bead.add(feed, dx, dy, dz, stands)
      },
      origin: (value) => {
        if (notes.note(entryKind.origin, 0, value)) notes.lookForEveryLayer()
        state.store()
        this.#odd.origin(value)
        state.load()
      },
      move: (seen, arc, at) => this.#moves.handed(seen, arc, byteAt(at)),
      draws: (seen, arc) => this.#moves.draw(seen, arc),
      timed: (moves, count) => state.clock?.take(moves, count),
      timedArc: (seen, arc, feed) => this.#moves.timeArc(seen, arc, feed),
      longLine: (at) => {
        if (notes.note(entryKind.longLine, byteAt(at))) return
        state.remarks.findings.note('long_line', byteAt(at), state.line + 1)
      },
      loneCR: (at) => {
        if (state.inRange) throw new RangeLost()
        this.#loneCR(this.#windowAt + at)
      },
    }
  }

  #loneCR(at: number): void {
    this.state.remarks.findings.note('lone_cr', this.state.base + at, this.state.line)
  }
}

/** Index of the end of the line that begins there. */
function lineStop(buf: Uint8Array, from: number): number {
  let stop = from
  while (buf[stop] !== LF && buf[stop] !== CR) stop++
  return stop
}

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
