import type { Arc } from './arc.ts'
import { planeArc } from './arc.ts'
import { chordsOf } from './arc-chords.ts'
import { arcPoints } from './arc-points.ts'
import type { Clock } from './clock.ts'
import type { Command } from './lex-line.ts'
import { applyMotion, familyOfCommand } from './motion-commands.ts'
import { MotionLimits, type MotionOptions } from './motion-limits.ts'
import { MovePlanner, moveColumns } from './move-planner.ts'
import { PrintWaits, type WaitKind } from './print-waits.ts'
import type { PrintTime } from './reading.ts'

/** A heater that is asked for less than this more than before is hot already, °C. */
const sameHeat = 5

const waitOfM: Readonly<Record<number, WaitKind>> = {
  109: 'nozzle',
  116: 'nozzle',
  190: 'bed',
  191: 'chamber',
}

/**
 * The time along a print: its moves planned, its dwells added, its waits noted. Who reads the file
 * tells it the moves in order, and asks for tickets where the time is wanted; they are told at the end,
 * for how a move ends depends on what comes after it.
 */
export class PrintClock implements Clock {
  readonly planner: MovePlanner
  readonly #limits: MotionLimits
  readonly #waits = new PrintWaits()
  readonly #row = new Float64Array(moveColumns)
  readonly #heat = new Map<WaitKind, number>()

  constructor(options: MotionOptions) {
    this.#limits = new MotionLimits(options)
    this.planner = new MovePlanner(this.#limits)
  }

  /** A ticket for the time here; see `MovePlanner.ask`. */
  ask(): number {
    return this.planner.ask()
  }

  timeOf(ticket: number): number {
    return this.planner.timeOf(ticket)
  }

  take(moves: Float64Array, count: number): void {
    this.planner.take(moves, count)
  }

  move(dx: number, dy: number, dz: number, feed: number, speed: number): void {
    const row = this.#row
    row[0] = dx
    row[1] = dy
    row[2] = dz
    row[3] = feed
    row[4] = speed
    this.planner.take(row, 1)
  }

  /** An arc, on the chords that the family cuts it into. One that does not exist is straight. */
  arc(arc: Arc, feed: number, speed: number): void {
    const points = arcPoints(arc, this.#chordsOf(arc, speed))
    const each = feed / (points.length - 1)
    for (let at = 1; at < points.length; at++) {
      const from = points[at - 1]!
      const to = points[at]!
      this.move(to.x - from.x, to.y - from.y, to.z - from.z, each, speed)
    }
  }

  #chordsOf(arc: Arc, speed: number): number {
    const plane = planeArc(arc)
    if (plane === null) return 1
    const length = Math.hypot(plane.radius * plane.sweep, arc.to.z - arc.from.z)
    return chordsOf(this.#limits.profile.family, length, plane.radius, speed / 60)
  }

  feed(length: number): void {
    if (length !== 0) this.move(0, 0, 0, length, retractionSpeed)
  }

  command(command: Command, tool: number): void {
    const { letter, code, words } = command
    const family = familyOfCommand(command)
    const { profile } = this.#limits
    const { corner } = profile
    if (family !== undefined && family !== profile.family) {
      this.planner.rest(0)
      this.#limits.hint(family)
    }
    const number = (of: string): number | undefined => words.get(of)?.value ?? undefined
    if (letter === 'G') this.#ofG(code, number)
    else if (letter === 'T') {
      if (code >= 0 && code < 100 && code !== tool) this.#wait('tool')
    } else if (letter === 'M' && waitOfM[code] !== undefined) {
      this.#heating(waitOfM[code], number('S'), number('R'))
    } else if (isStop(command)) this.#stop(command, number)
    else if (letter === 'M' && code === 400) this.planner.stop()
    else if (letter === '' && command.name.toUpperCase() === 'TEMPERATURE_WAIT')
      this.#wait('nozzle')
    else applyMotion(this.#limits, command)
    if (corner !== this.#limits.profile.corner) this.planner.rest(0)
  }

  #ofG(code: number, number: (letter: string) => number | undefined): void {
    if (code === 4) {
      const milliseconds = number('P') ?? 0
      // One family does not know S.
      const seconds = this.#limits.profile.family === 'host' ? 0 : (number('S') ?? 0)
      this.planner.rest(Math.max(0, milliseconds / 1000 + seconds))
    } else if (code === 28) this.#wait('homing')
    else if (Math.trunc(code) === 29 || code === 32) this.#wait('probing')
  }

  /** Waiting for heat, unless it is there; R waits for cooling, too. */
  #heating(kind: WaitKind, target: number | undefined, either: number | undefined): void {
    const wanted = either ?? target
    const now = this.#heat.get(kind) ?? 0
    if (wanted === undefined) {
      this.#wait(kind)
      return
    }
    this.#heat.set(kind, wanted)
    const rises = wanted > now + sameHeat
    if (rises || (either !== undefined && wanted < now - sameHeat)) this.#wait(kind)
    else this.planner.stop()
  }

  #stop({ code }: Command, number: (letter: string) => number | undefined): void {
    const { family } = this.#limits.profile
    const timed = (number('S') ?? 0) + (number('P') ?? 0) / 1000
    if ((code === 0 || code === 1) && timed > 0 && family !== 'meta') this.planner.rest(timed)
    else this.#wait('person')
  }

  #wait(kind: WaitKind): void {
    this.planner.rest(0)
    this.#waits.add(kind, this.planner.time)
  }

  finish(): PrintTime {
    this.planner.finish()
    const { profile } = this.#limits
    return {
      total_s: this.planner.time,
      family: profile.family,
      corner: profile.corner,
      waits: this.#waits.list(),
    }
  }
}

/** mm/min; the community families' default, from memory. */
const retractionSpeed = 2700

const isStop = ({ letter, code, name }: Command): boolean =>
  letter === 'M'
    ? code === 0 || code === 1 || code === 25 || code === 226 || code === 600 || code === 601
    : letter === '' && name.toUpperCase() === 'PAUSE'
