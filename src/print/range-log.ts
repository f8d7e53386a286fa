import { slot } from './plain-lines.ts'

/**
 * What a reader noted of a range of a file that it read without knowing what came before: enough to
 * go on behind the range as if it had been read in order (`PrintReader.fold`). Values that go on from
 * before (counts, net feed, logical E) are counted from the range's begin.
 */
export interface RangeLog {
  /** Byte at which the first noted line begins; what lies before it is to be read in order. */
  readonly from: number
  /** Byte behind the last noted line. */
  readonly end: number
  /** Entry after entry, `entrySize` numbers each. */
  readonly entries: Float64Array
  /** Lines to be read in order, one after another. */
  readonly lines: Uint8Array
}

/** What an entry tells. */
export const entryKind = {
  /**
   * What holds from here on: whether lines are plain, E relative, its scale and factor, the tool; and how
   * far apart the curve is looked at, pm.
   */
  holds: 0,
  /** The state alone. */
  state: 1,
  /** Height. */
  layer: 2,
  /** Height, and whether a cell of the curve begins. */
  look: 3,
  longFeed: 4,
  /** Feed, way in X, Y and Z, moves it stands for. */
  bead: 5,
  /** Value. */
  origin: 6,
  longLine: 7,
  /** Where in `lines` it begins and ends. */
  line: 8,
} as const
export type EntryKind = (typeof entryKind)[keyof typeof entryKind]

/** Slots of which an entry tells the value, behind its kind, byte and six numbers of its own. */
export const loggedSlots: readonly number[] = [
  slot.x,
  slot.y,
  slot.z,
  slot.e,
  slot.net,
  slot.peak,
  slot.line,
  slot.extruding,
  slot.moves,
  slot.arcs,
  slot.retractions,
  slot.extrudingArcs,
  slot.commands,
  slot.curveAt,
  slot.beadAt,
]
const ownNumbers = 6
/** Index of the first slot in an entry. */
export const slotsOfEntry: number = 2 + ownNumbers
export const entrySize: number = slotsOfEntry + loggedSlots.length

/** A range with more entries than one in so many bytes is no faster to fold than to read. */
const bytesToAnEntry = 256
const spareEntries = 4096

/** Writes a log. */
export class RangeLogger {
  readonly #from: number
  #end: number
  #entries = new Float64Array(256 * entrySize)
  #length = 0
  #lines = new Uint8Array(1024)
  #linesLength = 0

  constructor(from: number) {
    this.#from = from
    this.#end = from
  }

  /** Whether the log, having come to `byte`, has grown too long to be of use. */
  isLongAt(byte: number): boolean {
    const read = byte - this.#from + bytesToAnEntry * spareEntries
    return (this.#length / entrySize) * bytesToAnEntry > read || this.#linesLength * 4 > read
  }

  add(
    kind: EntryKind,
    byte: number,
    slots: Float64Array,
    own: readonly (number | undefined)[] = [],
  ): void {
    if (this.#length === this.#entries.length) {
      const larger = new Float64Array(2 * this.#length)
      larger.set(this.#entries)
      this.#entries = larger
    }
    const at = this.#length
    this.#entries[at] = kind
    this.#entries[at + 1] = byte
    for (let k = 0; k < own.length; k++) this.#entries[at + 2 + k] = own[k] as number
    for (let k = 0; k < loggedSlots.length; k++) {
      this.#entries[at + slotsOfEntry + k] = slots[loggedSlots[k] as number] as number
    }
    this.#length += entrySize
  }

  /** Keeps a line that is to be read in order; the state is the one before it. */
  addLine(line: Uint8Array, byte: number, slots: Float64Array): void {
    const needed = this.#linesLength + line.length
    if (needed > this.#lines.length) {
      const larger = new Uint8Array(Math.max(needed, 2 * this.#lines.length))
      larger.set(this.#lines.subarray(0, this.#linesLength))
      this.#lines = larger
    }
    this.#lines.set(line, this.#linesLength)
    this.add(entryKind.line, byte, slots, [this.#linesLength, needed])
    this.#linesLength = needed
  }

  /** Everything up to a byte is noted. */
  reach(byte: number): void {
    this.#end = byte
  }

  log(): RangeLog {
    return {
      from: this.#from,
      end: this.#end,
      entries: this.#entries.slice(0, this.#length),
      lines: this.#lines.slice(0, this.#linesLength),
    }
  }
}
