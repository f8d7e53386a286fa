import type { CurveLooks } from './curve-looks.ts'
import type { Command } from './lex-line.ts'
import { cellSize, movesIn, nextCell } from './look-spacing.ts'
import { askMove, feedAll, type Head, isMove } from './move-words.ts'
import { fromPicometres, picometresPerMm } from './picometres.ts'
import {
  type AxisWords,
  arcOfSlots,
  type Place,
  placeOfCommand,
  placeOfSlots,
  wayTo,
} from './place.ts'
import { letterBit, slot } from './plain-lines.ts'
import type { ReaderState } from './reader-state.ts'

/** A single feed that some boards refuse, pm. */
const longFeed = 200 * picometresPerMm
const mmPerInch = 25.4
const axes = [
  ['X', slot.x],
  ['Y', slot.y],
  ['Z', slot.z],
] as const
const bitE = letterBit('E')
const bitF = letterBit('F')

/** Takes the moves that are not the kernel's alone: where they go, what they feed, draw and take of time. */
export class MoveTaker {
  readonly #state: ReaderState
  readonly #looks: CurveLooks

  constructor(state: ReaderState, looks: CurveLooks) {
    this.#state = state
    this.#looks = looks
  }

  /** A plain move in relative or inch coordinates, or while families disagree. */
  handed(seen: number, arc: number, byte: number): void {
    const state = this.#state
    const { all } = state.tracks
    const place = placeOfSlots(state.slots, seen, arc, this.#axisWords(state.feed.axesRelative))
    if ((seen & bitF) !== 0) this.#setSpeed(state.count('wordF'))
    const feeding = (seen & bitE) !== 0
    let fed = 0
    if (feeding) {
      const value = state.count('wordE')
      const feeds = all.map((track) => track.state.ask(value))
      fed = feeds[0] as number
      this.#extrude(fed, place, byte)
      all.forEach((track, k) => track.state.feed(feeds[k] as number))
    }
    this.#time(place, fromPicometres(fed))
    this.#goTo(place)
    if (feeding) this.#looks.behindMove(byte)
    state.load()
  }

  /**
   * One move of an odd line for every feed state given; the first decides the position and the layers.
   *
   * @param commandOf - the command as the family at that place in the list reads it
   * @param apply - applies a command that is no move to the others
   */
  take(
    heads: readonly Head[],
    byte: number,
    commandOf: (head: number) => Command | undefined,
    apply: (head: Head, command: Command) => void,
  ): void {
    const state = this.#state
    const command = commandOf(0) as Command
    const first = heads[0] as Head
    const axisWords = this.#axisWords(first.state.axesRelative)
    const place = placeOfCommand(state.slots, command, axisWords)
    state.add('moves')
    if (place.arc !== null) state.add('arcs')
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
      else if (own !== undefined && !isMove(own)) apply(head, own)
    })
    this.#goTo(place)
    // Other tools' curves are looked at only here.
    if (feeds.some((feed) => feed != null && feed.length > 1)) this.#looks.anew(byte)
    else if (feeds.some((feed) => feed != null)) this.#looks.behindMove(byte)
  }

  /** Units and G92 of the axes, which all families read alike. */
  followAxes({ letter, code, words }: Command): void {
    const state = this.#state
    if (letter !== 'G') return
    if (code === 20) state.axesInch = true
    else if (code === 21) state.axesInch = false
    else if (code === 92) {
      for (const [axis, at] of axes) {
        const value = words.get(axis)?.value
        if (value == null || !Number.isFinite(value)) continue
        state.slots[at] = value * this.#unit
      }
    }
  }

  /** A move whose ends the kernel has put into the slots leaves the silhouette's row at hand. */
  draw(seen: number, arc: number): void {
    const { drawing, slots } = this.#state
    drawing?.draw(wayTo(slots, this.#placeInSlots(seen, arc)), slots)
  }

  /** An arc whose ends the kernel has put into the slots is to be timed. @param feed - mm */
  timeArc(seen: number, arc: number, feed: number): void {
    this.#state.kernel?.takeMoves()
    this.#time(this.#placeInSlots(seen, arc), feed)
  }

  noteLongFeed(byte: number): void {
    this.#state.remarks.findings.note('long_feed', byte, this.#state.line)
  }

  #placeInSlots(seen: number, arc: number): Omit<Place, 'namesXY'> {
    const state = this.#state
    return {
      x: state.count('wordX'),
      y: state.count('wordY'),
      z: state.count('wordZ'),
      arc: arcOfSlots(state.slots, seen, arc, 1),
    }
  }

  /** mm to the unit of the axes. */
  get #unit(): number {
    return this.#state.axesInch ? mmPerInch : 1
  }

  #axisWords(relative: boolean): AxisWords {
    return { unit: this.#unit, relative }
  }

  /** @param speed - in the unit of the axes a minute */
  #setSpeed(speed: number): void {
    this.#state.set('wordF', speed * this.#unit)
  }

  #goTo({ x, y, z }: Place): void {
    this.#state.set('x', x)
    this.#state.set('y', y)
    this.#state.set('z', z)
  }

  /** Lets the clock know of a move, before the nozzle goes there. @param feed - mm */
  #time({ x, y, z, arc }: Omit<Place, 'namesXY'>, feed: number): void {
    const state = this.#state
    if (state.clock === null) return
    const from = { x: state.count('x'), y: state.count('y'), z: state.height }
    const speed = state.count('wordF')
    const to = { x, y, z }
    if (arc === null || arc.about === null) {
      state.clock.move(x - from.x, y - from.y, z - from.z, feed, speed)
    } else {
      const { clockwise, about } = arc
      state.clock.arc({ from, to, clockwise, about }, feed, speed)
    }
  }

  /** Counts a move by what the reference families feed on it, and looks for a layer. @param feed - pm */
  #extrude(feed: number, place: Place, byte: number): void {
    const state = this.#state
    if (feed > longFeed) this.noteLongFeed(byte)
    if (feed < 0) state.add('retractions')
    if (feed <= 0 || !(place.namesXY || place.arc !== null)) return
    state.add('extruding')
    const dx = place.x - state.count('x')
    const dy = place.y - state.count('y')
    const travels = dx !== 0 || dy !== 0
    if (travels || place.arc !== null) {
      state.lookForLayer(place.z, byte)
      if (state.drawing !== null) {
        state.drawing.useTool(state.feed.tool, state.slots)
        state.drawing.draw(wayTo(state.slots, place), state.slots)
      }
    }
    if (place.arc !== null) state.add('extrudingArcs')
    const stands = this.#standsFor(byte)
    if (place.arc !== null || !travels || stands === 0) return
    state.bead.add(fromPicometres(feed), dx, dy, place.z - state.height, stands)
  }

  /** For how many extruding moves this one stands; 0 when it is not to be sampled: as the kernel does. */
  #standsFor(byte: number): number {
    if (byte < this.#state.count('beadAt')) return 0
    this.#state.set('beadAt', nextCell(byte))
    return movesIn(cellSize(byte))
  }
}
