import { toolColumn } from './feed-state.ts'
import { slot } from './plain-lines.ts'
import { type EntryKind, entryKind, type RangeLog, RangeLogger } from './range-log.ts'
import type { ReaderState } from './reader-state.ts'

const place = [slot.x, slot.y, slot.z] as const

/** Notes what is read of a range of whose begin nothing is known, for who goes on behind it. */
export class RangeNotes {
  readonly #state: ReaderState
  #log: RangeLogger | null = null

  constructor(state: ReaderState) {
    this.#state = state
  }

  /** Whether what is read is noted. */
  get isNoting(): boolean {
    return this.#log !== null
  }

  /**
   * Begins a range of a file whose head, or another range, was read before: only modes are kept.
   *
   * @param apart - how far apart the curve is looked at, pm, a power of two
   */
  begin(apart: number): void {
    const state = this.#state
    const { feed } = state
    state.inRange = true
    this.#log = null
    state.slots.fill(0)
    for (const at of place) state.slots[at] = Number.NaN
    state.set('lookAt', Number.NaN)
    state.set('ownSpacing', apart)
    feed.e = feed.relative ? 0 : Number.NaN
    feed.set(toolColumn.net, 0)
    this.lookForEveryLayer()
  }

  /** Whether it is known where the nozzle and E stand, so that a range can be noted. */
  get canNote(): boolean {
    const { slots, feed } = this.#state
    const known = place.every((at) => Number.isFinite(slots[at]))
    return known && Number.isFinite(feed.e) && this.#state.modes().plain
  }

  /** Begins to note, from the first line of a cell, which begins at `byte`. */
  noteFrom(byte: number): void {
    this.#state.feed.setAll(toolColumn.net, 0)
    this.lookForEveryLayer()
    this.#log = new RangeLogger(byte)
    this.#noteModes(byte)
  }

  /** What was noted up to `byte`, where a line begins; null where nothing was. */
  end(byte: number): RangeLog | null {
    const log = this.#log
    if (log === null) return null
    log.add(entryKind.state, byte, this.#state.slots)
    log.reach(byte)
    return log.log()
  }

  /** Whether it makes no sense to note more of a range, noted up to `byte`. */
  isLongAt(byte: number): boolean {
    return this.#log?.isLongAt(byte) ?? false
  }

  /** Notes an event of a range that is noted; true when it concerns nobody else here. */
  note(kind: EntryKind, byte: number, ...own: readonly number[]): boolean {
    this.#log?.add(kind, byte, this.#state.slots, own)
    return this.#state.inRange
  }

  /** A climbing move may be followed by a level one that opens a layer; a second level one can not. */
  noteLayer(height: number, byte: number): void {
    const climbs = height > this.#state.height
    this.note(entryKind.layer, byte, height)
    if (climbs) this.lookForEveryLayer()
    else {
      this.#state.set('top', height)
      this.#state.set('floor', height)
    }
  }

  /** Of a range every extruding move that may be another layer's is noted. */
  lookForEveryLayer(): void {
    this.#state.set('top', Number.NEGATIVE_INFINITY)
    this.#state.set('floor', Number.POSITIVE_INFINITY)
  }

  /** Notes an odd line, which is to be read in order, before it is read. */
  noteLine(line: Uint8Array, byte: number): void {
    this.#log?.addLine(line, byte, this.#state.slots)
  }

  /** Notes what is thought to hold behind an odd line. */
  behindLine(byte: number): void {
    this.lookForEveryLayer()
    this.#state.load()
    this.#noteModes(byte)
  }

  #noteModes(byte: number): void {
    const state = this.#state
    // The highest net feed is counted anew: what is fed may have jumped, or be another tool's.
    state.feed.set(toolColumn.peak, state.net)
    state.load()
    const own = [...this.whatHolds(), state.count('ownSpacing')]
    this.#log?.add(entryKind.holds, byte, state.slots, own)
    this.#log?.reach(byte)
  }

  /** What holds now, as a log has it. */
  whatHolds(): readonly number[] {
    const { plain, relative, scale, factor } = this.#state.modes()
    return [plain ? 1 : 0, relative ? 1 : 0, scale, factor, this.#state.feed.tool]
  }
}
