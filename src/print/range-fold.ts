import { type PlainEvents, slot } from './plain-lines.ts'
import { entryKind, entrySize, loggedSlots, type RangeLog, slotsOfEntry } from './range-log.ts'

/** What a fold needs of the line reader that goes on behind the range. */
export interface FoldInto {
  readonly slots: Float64Array
  /** What holds now, as a log has it. */
  holds(): readonly number[]
  /** Takes the slots over into the feed state. */
  store(): void
  /** How far apart the curve is looked at in a cell that begins now, pm. */
  drawSpacing(): number
  /** Looks at the curve, where so much was fed since the last look, or a cell begins. */
  look(isCell: boolean, height: number, byte: number): void
  /** What to do with the kernel's other events; they are told to be at index 0 of what begins at `byte`. */
  events(byte: number): PlainEvents
  /** Reads lines in order. */
  read(lines: Uint8Array, from: number, to: number, byte: number): void
}

/** Slots whose value goes on from before the range. */
const goingOn: ReadonlySet<number> = new Set([
  slot.e,
  slot.net,
  slot.line,
  slot.extruding,
  slot.moves,
  slot.arcs,
  slot.retractions,
  slot.extrudingArcs,
])
/** Slots that must be the same on both sides. */
const alike = [slot.x, slot.y, slot.z] as const
/** Slots that must be so, or tell on both that a cell begins. */
const cells = [slot.curveAt, slot.beadAt] as const

/** Puts what a log tells of a range behind what was read before it. */
export class RangeFold {
  readonly #log: RangeLog
  readonly #into: FoldInto
  /** What is to be added to a slot of the log; 0 where it does not go on. */
  readonly #shift = new Float64Array(loggedSlots.length)

  constructor(log: RangeLog, into: FoldInto) {
    this.#log = log
    this.#into = into
  }

  /** @returns the byte up to which the range has been read */
  run(): number {
    const { entries, end } = this.#log
    for (let at = 0; at < entries.length; at += entrySize) {
      const kind = entries[at] as number
      const byte = entries[at + 1] as number
      if (kind === entryKind.holds) {
        if (!this.#begins(at, byte)) return byte
      } else {
        this.#take(at)
        this.#tell(kind, byte, at + 2)
      }
    }
    return end
  }

  /** Whether what the log takes to hold does; then what goes on goes on from here. */
  #begins(at: number, byte: number): boolean {
    const { entries } = this.#log
    const { slots } = this.#into
    const holds = this.#into.holds()
    if (holds.some((value, k) => value !== entries[at + 2 + k])) return false
    if (alike.some((each) => slots[each] !== this.#valueAt(at, each))) return false
    const same = (each: number): boolean => {
      const [here, there] = [slots[each] as number, this.#valueAt(at, each)]
      return here === there || (here <= byte && there <= byte)
    }
    if (!cells.every(same)) return false
    // Where the range was not looked at often enough, rows may be missing.
    if (this.#into.drawSpacing() < (entries[at + 2 + holds.length] as number)) return false
    const relative = holds[1] === 1
    if (!relative && slots[slot.e] !== this.#valueAt(at, slot.e)) return false
    loggedSlots.forEach((each, k) => {
      const own = entries[at + slotsOfEntry + k] as number
      this.#shift[k] = goingOn.has(each) ? (slots[each] as number) - own : 0
    })
    // Logical E of a tool that was left before the range is not known in it.
    return this.#shift.every(Number.isFinite)
  }

  #valueAt(at: number, each: number): number {
    return this.#log.entries[at + slotsOfEntry + loggedSlots.indexOf(each)] as number
  }

  /** Takes the state of an entry over. */
  #take(at: number): void {
    const { entries } = this.#log
    const { slots } = this.#into
    const most = slots[slot.peak] as number
    const commands = slots[slot.commands] as number
    for (let k = 0; k < loggedSlots.length; k++) {
      const value = (entries[at + slotsOfEntry + k] as number) + (this.#shift[k] as number)
      slots[loggedSlots[k] as number] = value
    }
    const reached = (slots[slot.peak] as number) + (this.#shift[netShift] as number)
    slots[slot.peak] = Math.max(most, reached)
    slots[slot.commands] = Math.max(commands, slots[slot.commands] as number)
    this.#into.store()
  }

  #tell(kind: number, byte: number, at: number): void {
    const own = (k: number): number => this.#log.entries[at + k] as number
    switch (kind) {
      case entryKind.look:
        this.#into.look(own(1) === 1, own(0), byte)
        break
      case entryKind.layer:
        this.#into.events(byte).layer(own(0), 0)
        break
      case entryKind.longFeed:
        this.#into.events(byte).longFeed(0)
        break
      case entryKind.bead:
        this.#into.events(byte).bead(own(0), own(1), own(2), own(3), own(4))
        break
      case entryKind.origin:
        this.#into.events(byte).origin(own(0))
        // Both have E where the line says.
        this.#shift[eShift] = 0
        break
      case entryKind.longLine:
        this.#into.events(byte).longLine(0)
        break
      case entryKind.line:
        this.#into.read(this.#log.lines, own(0), own(1), byte)
        break
      default:
    }
  }
}

const netShift = loggedSlots.indexOf(slot.net)
const eShift = loggedSlots.indexOf(slot.e)
