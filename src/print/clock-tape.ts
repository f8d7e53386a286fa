import type { Arc } from './arc.ts'
import type { Clock } from './clock.ts'
import type { Command } from './lex-line.ts'
import { moveColumns } from './move-planner.ts'
import type { PrintTime } from './reading.ts'

/** What an entry of a tape is; a number. */
export const tapeEntry = {
  /** So many moves, whose rows follow. */
  moves: 0,
  ask: 1,
  /** The next of the tape's other things. */
  other: 2,
} as const

/** What is no row of numbers. */
export type TapeThing =
  | { readonly kind: 'arc'; readonly arc: Arc; readonly feed: number; readonly speed: number }
  | { readonly kind: 'feed'; readonly length: number }
  | { readonly kind: 'command'; readonly command: Command; readonly tool: number }

/** What a clock was told, in order: as much as one block of numbers holds. */
export interface Tape {
  readonly numbers: Float64Array
  /** How many of them count. */
  readonly length: number
  readonly things: readonly TapeThing[]
}

/** What the one who plays the tapes has found. */
export interface TimesTold {
  readonly time: PrintTime
  /** Of each ticket, in the order in which they were asked for, s. */
  readonly times: Float64Array
}

/** Where tapes go. */
export interface TapeLink {
  /** An empty block to write on, of at least `leastBlock` numbers. */
  block(): Float64Array
  /** Takes a tape on such a block; the block is the link's again. */
  send(tape: Tape): void
  /** Waits until all tapes are played. */
  finish(): TimesTold
}

/** Room for an entry of one move, and one of another kind behind it. */
export const leastBlock: number = moveColumns + 3

/**
 * A clock that works nothing out: it writes down what it is told, for a `TapePlayer` in another thread,
 * which tells the same times to the last bit.
 */
export class ClockTape implements Clock {
  readonly #link: TapeLink
  #numbers: Float64Array
  #length = 0
  #things: TapeThing[] = []
  /** Where the number of moves stands that the last entry has; −1 where it has none. */
  #countAt = -1
  #asked = 0
  #times: Float64Array = new Float64Array(0)

  constructor(link: TapeLink) {
    this.#link = link
    this.#numbers = link.block()
  }

  take(moves: Float64Array, count: number): void {
    for (let from = 0; from < count; ) {
      this.#openMoves()
      const room = Math.floor((this.#numbers.length - this.#length) / moveColumns)
      const taken = Math.min(count - from, room)
      const rows = moves.subarray(from * moveColumns, (from + taken) * moveColumns)
      this.#numbers.set(rows, this.#length)
      this.#length += rows.length
      this.#numbers[this.#countAt] = (this.#numbers[this.#countAt] as number) + taken
      from += taken
    }
  }

  /** Makes moves the last entry, with room for one more at least. */
  #openMoves(): void {
    const needed = this.#countAt < 0 ? 2 + moveColumns : moveColumns
    if (this.#length + needed > this.#numbers.length) this.#send()
    if (this.#countAt >= 0) return
    this.#numbers[this.#length++] = tapeEntry.moves
    this.#countAt = this.#length
    this.#numbers[this.#length++] = 0
  }

  move(dx: number, dy: number, dz: number, feed: number, speed: number): void {
    this.take(Float64Array.of(dx, dy, dz, feed, speed), 1)
  }

  arc(arc: Arc, feed: number, speed: number): void {
    this.#add({ kind: 'arc', arc, feed, speed })
  }

  feed(length: number): void {
    this.#add({ kind: 'feed', length })
  }

  command(command: Command, tool: number): void {
    this.#add({ kind: 'command', command, tool })
  }

  #add(thing: TapeThing): void {
    this.#enter(tapeEntry.other)
    this.#things.push(thing)
  }

  ask(): number {
    this.#enter(tapeEntry.ask)
    return this.#asked++
  }

  #enter(entry: number): void {
    if (this.#length === this.#numbers.length) this.#send()
    this.#numbers[this.#length++] = entry
    this.#countAt = -1
  }

  #send(): void {
    this.#link.send({ numbers: this.#numbers, length: this.#length, things: this.#things })
    this.#numbers = this.#link.block()
    this.#length = 0
    this.#things = []
    this.#countAt = -1
  }

  finish(): PrintTime {
    this.#send()
    const { time, times } = this.#link.finish()
    this.#times = times
    return time
  }

  timeOf(ticket: number): number {
    return this.#times[ticket] as number
  }
}
