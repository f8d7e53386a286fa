import { firmwareFamilies } from './firmware-family.ts'
import { LineReader } from './line-reader.ts'
import { drawSpacing, nextCell } from './look-spacing.ts'
import type { RangeLog } from './range-log.ts'
import { RangeLost } from './range-lost.ts'
import { ReadStop } from './read-stop.ts'
import type { ReadOptions } from './reading.ts'

const LF = 10
/** Until it is known where the nozzle stands, so many bytes are read at once. */
const firstLook = 65_536
/** Where the curve is looked at too seldom the range is lost; too often costs little. */
const caution = 4

/**
 * Reads a range of a file of plain machine code without what comes before it, so that ranges can be
 * read in threads or on machines apart. What it notes is folded into a reader of all that lies before:
 * `PrintReader.fold`.
 *
 * It takes modes to be what they are behind the file's head, or behind the range it read last. Where
 * that is wrong, nothing is: the fold finds out, and the rest of the range is read in order.
 *
 * @example
 * const ranges = new RangeReader()
 * ranges.head(firstMegabyte)
 * ranges.begin(100_000_000)
 * for (const slice of slices) ranges.push(slice)
 * const log = ranges.finish()
 */
export class RangeReader {
  readonly #lines: LineReader
  /** Byte of the machine code at which what is not read yet begins. */
  #at = 0
  #held: Uint8Array = new Uint8Array(0)
  /** Whether a line's begin has been found. */
  #inLine = false
  #noting = false
  /** Where the next cell begins, once it is known where the nozzle stands. */
  #cellAt = Number.POSITIVE_INFINITY
  #notedFrom = 0
  /** Least feed to the byte seen so far, pm. */
  #perByte = Number.POSITIVE_INFINITY
  #lost = false
  #log: RangeLog | null = null

  constructor(options: ReadOptions = {}) {
    const { firmware, eUnit = 'code', eMode = 'code', diameter_mm: diameter = 1.75 } = options
    const families = firmwareFamilies.filter(({ id }) => firmware === undefined || id === firmware)
    this.#lines = new LineReader({ families, eUnit, eMode, diameter, drawing: null, clock: null })
  }

  /** Reads the begin of the file, to know what holds when the print begins. */
  head(bytes: Uint8Array): void {
    const end = bytes.lastIndexOf(LF) + 1
    const from = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0
    if (end > from) this.#try(() => this.#lines.read(bytes, from, end))
    this.#sawFeed(this.#lines.state.net, end)
  }

  #sawFeed(net: number, bytes: number): void {
    if (net > 0) this.#perByte = Math.min(this.#perByte, net / bytes)
  }

  /** Begins a range, anywhere in the file. */
  begin(byte: number): void {
    this.#at = byte
    this.#held = new Uint8Array(0)
    this.#inLine = false
    this.#noting = false
    this.#cellAt = Number.POSITIVE_INFINITY
    this.#log = null
    if (!this.#lost) this.#beginLines()
  }

  #beginLines(): void {
    const drawn = Number.isFinite(this.#perByte) ? this.#perByte * this.#at : 0
    this.#lines.notes.begin(drawSpacing(drawn / caution))
  }

  /** Takes the next bytes of the range. */
  push(slice: Uint8Array): void {
    if (this.#lost || this.#log !== null) return
    let from = 0
    if (!this.#inLine) {
      from = slice.indexOf(LF) + 1
      this.#at += from === 0 ? slice.length : from
      if (from === 0) return
      this.#inLine = true
    }
    const end = slice.lastIndexOf(LF) + 1
    if (end <= from) {
      this.#hold(slice.subarray(from))
      return
    }
    if (this.#held.length > 0) {
      const first = slice.indexOf(LF, from) + 1
      this.#hold(slice.subarray(from, first))
      const line = this.#held
      this.#held = new Uint8Array(0)
      this.#read(line, 0, line.length)
      from = first
    }
    while (from < end && !this.#lost && this.#log === null) {
      const to = this.#noting ? end : this.#nextStop(slice, from, end)
      this.#read(slice, from, to)
      from = to
    }
    this.#hold(slice.subarray(end))
  }

  /** Up to where to read before it is asked whether the range can be noted. */
  #nextStop(slice: Uint8Array, from: number, end: number): number {
    const cell = from + this.#cellAt - this.#at
    // The first line that begins in the cell.
    if (cell < end) return slice.indexOf(LF, cell - 1) + 1
    if (Number.isFinite(this.#cellAt)) return end
    const to = slice.lastIndexOf(LF, Math.min(end, from + firstLook) - 1) + 1
    return to > from ? to : end
  }

  #hold(part: Uint8Array): void {
    const held = new Uint8Array(this.#held.length + part.length)
    held.set(this.#held)
    held.set(part, this.#held.length)
    this.#held = held
  }

  #read(bytes: Uint8Array, from: number, to: number): void {
    if (to <= from) return
    const lines = this.#lines
    this.#try(() => {
      lines.state.base = this.#at - from
      lines.read(bytes, from, to)
    })
    if (this.#lost) return
    this.#at += to - from
    if (!this.#noting) this.#lookForCell()
    else if (lines.notes.isLongAt(this.#at)) this.#log = lines.notes.end(this.#at)
  }

  /** Begins to note with the first line of a cell, once it is known where the nozzle stands. */
  #lookForCell(): void {
    const known = this.#lines.notes.canNote
    const cellAt = known ? Math.min(this.#cellAt, nextCell(this.#at - 1)) : Number.POSITIVE_INFINITY
    this.#cellAt = cellAt
    if (this.#at < cellAt) return
    this.#noting = true
    this.#notedFrom = this.#at
    this.#lines.notes.noteFrom(this.#at)
  }

  /** Where the range turns out to be none that can be read so, it is given up. */
  #try(act: () => void): void {
    try {
      act()
    } catch (error) {
      if (!(error instanceof ReadStop || error instanceof RangeLost)) throw error
      // As long as it is not known where E stands, a line may ask for what nobody can feed.
      if (this.#noting || error instanceof RangeLost) this.#lost = true
      else this.#beginLines()
    }
  }

  /**
   * Ends the range.
   *
   * @returns what was noted of it; null when it must be read in order
   */
  finish(): RangeLog | null {
    if (this.#lost) return null
    if (this.#noting) this.#sawFeed(this.#lines.state.net, this.#at - this.#notedFrom)
    return this.#log ?? this.#lines.notes.end(this.#at)
  }
}
