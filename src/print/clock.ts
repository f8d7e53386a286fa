import type { Arc } from './arc.ts'
import type { Command } from './lex-line.ts'
import type { MotionOptions } from './motion-limits.ts'
import type { PrintTime } from './reading.ts'

/**
 * Who works out the time along a print: told of its moves and commands in order, and asked for tickets
 * where the time is wanted.
 */
export interface Clock {
  /** Straight moves, in rows of `moveColumns` numbers. */
  take(moves: Float64Array, count: number): void
  /** A straight move. Lengths in mm, speed as in the file, mm/min; 0 where none was given yet. */
  move(dx: number, dy: number, dz: number, feed: number, speed: number): void
  arc(arc: Arc, feed: number, speed: number): void
  /** The feeder alone, at its own speed: firmware retraction. */
  feed(length: number): void
  /** What a command other than a move does to time. @param tool - the active one */
  command(command: Command, tool: number): void
  /** A ticket for the time here. */
  ask(): number
  /** Ends the print. Tickets have their times after it. */
  finish(): PrintTime
  /** The time of a ticket, s. */
  timeOf(ticket: number): number
}

/** Makes the clock of one print. */
export type ClockMaker = (motion: MotionOptions) => Clock
