import { type Tape, type TapeThing, type TimesTold, tapeEntry } from './clock-tape.ts'
import { Column } from './column.ts'
import type { MotionOptions } from './motion-limits.ts'
import { moveColumns } from './move-planner.ts'
import { PrintClock } from './print-clock.ts'

/** Tells a clock what a `ClockTape` has written down. */
export class TapePlayer {
  readonly #clock: PrintClock
  readonly #tickets = new Column()

  constructor(motion: MotionOptions) {
    this.#clock = new PrintClock(motion)
  }

  play({ numbers, length, things }: Tape): void {
    let thing = 0
    for (let at = 0; at < length; ) {
      const entry = numbers[at++]
      if (entry === tapeEntry.moves) {
        const count = numbers[at++] as number
        this.#clock.take(numbers.subarray(at), count)
        at += count * moveColumns
      } else if (entry === tapeEntry.ask) this.#tickets.push(this.#clock.ask())
      else this.#tell(things[thing++] as TapeThing)
    }
  }

  #tell(thing: TapeThing): void {
    if (thing.kind === 'arc') this.#clock.arc(thing.arc, thing.feed, thing.speed)
    else if (thing.kind === 'feed') this.#clock.feed(thing.length)
    else this.#clock.command(thing.command, thing.tool)
  }

  finish(): TimesTold {
    const time = this.#clock.finish()
    const times = this.#tickets.toArray().map((ticket) => this.#clock.timeOf(ticket))
    return { time, times }
  }
}
