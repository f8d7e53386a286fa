/**
 * Plans moves with look-ahead, as firmware does, and adds up their time.
 *
 * A move is a straight way with a speed asked for. Its own limits (speed and acceleration of each
 * axis) and the corner before it cap its speeds; then one pass backwards lets every move slow down
 * in time for what comes, and one forwards keeps it to what it can have reached. Both passes work on
 * squares of speeds, because over a length L at the acceleration a the square changes by 2·a·L.
 *
 * Moves are kept in a window. What stands at its end is planned as if the print stopped there, and
 * that is final as far back as the stop is not felt: up to the last corner that is taken at its own
 * cap. So the result is the same as with the whole print in memory; the rest waits for more moves.
 * The window grows to `farthest` moves; only moves that need more than that to stop are cut there.
 *
 * The square-corner rule has a second backward pass at a lower acceleration, whose peaks cap the
 * cruising, so that short moves do not only speed up and slow down (minimum cruise ratio). There the
 * window is final before the last peak that stands on final speeds.
 *
 * Layout: moves come as rows of `moveColumns` numbers (the kernel writes them so, in its own
 * memory), the window has a column for each quantity. Nothing is allocated for a move.
 *
 * The slow twin is test/print/twin-motion.ts: both must change together.
 *
 * @see docs/method/time.md
 */
import { Column } from './column.ts'
import {
  junctionSpeed2,
  midpointSpeed2,
  squareCornerDeviation,
  underChord,
  underJunction,
} from './corner-speed.ts'
import type { MotionLimits } from './motion-limits.ts'

/** Of a move: way along X, Y, Z and feed of the feeder, mm, and the speed asked for, mm/min. */
export const moveColumns = 5

const usualWindow = 512
const farthest = 32_768
/** A shorter way is none, mm. */
const shortest = 1e-7
/** Turns below 45° of chords below 1 mm are a curve. */
const curveCosine = Math.SQRT1_2
const curveChord = 1
/** Speed until the file gives one, mm/min; from memory. */
const firstFeed = 1500

/** Bits of a move's kind. */
const travels = 1
const prints = 2
const feederAlone = 4

/** Numbers of `#last`: what the next corner needs of the move before it. */
const lastX = 0
const lastY = 1
const lastZ = 2
const lastE = 3
const lastCruise2 = 4
const lastReach2 = 5
const lastDeviation = 6
const lastBegin2 = 7
const lastSmooth2 = 8
const lastFeed = 9

export class MovePlanner {
  readonly #limits: MotionLimits
  /** Moves taken so far; ways of no length are none. */
  taken = 0
  /** Time at the end of the moves that are final, s. */
  time = 0

  /** Moves in the window. */
  #size = 0
  #length: Float64Array
  /** Squares of speeds: the cap where a move begins, the cap inside it. */
  #begin2: Float64Array
  #cruise2: Float64Array
  /** 2·a·L: by how much the square of the speed can change along the move; and 1/a. */
  #reach2: Float64Array
  #perAccel: Float64Array
  /** Cap and reach for the second pass of the square-corner rule, and the caps it makes. */
  #smooth2: Float64Array
  #smoothReach2: Float64Array
  #peak2: Float64Array
  /** Square of the speed at which a move begins, by the backward pass. */
  #start2: Float64Array

  /** Speed at the window's begin, and its square. */
  #from = 0
  #from2 = 0
  /** The next move begins at rest. */
  #atRest = true
  #kind = 0
  readonly #last = new Float64Array(10)

  /** Ends of moves whose time was asked for, by the number of moves taken; and those times, s. */
  readonly #asked = new Column()
  readonly #times = new Column()

  /** @param window - moves that it holds before it grows */
  constructor(limits: MotionLimits, window: number = usualWindow) {
    this.#limits = limits
    const column = (): Float64Array => new Float64Array(window)
    this.#length = column()
    this.#begin2 = column()
    this.#cruise2 = column()
    this.#reach2 = column()
    this.#perAccel = column()
    this.#smooth2 = column()
    this.#smoothReach2 = column()
    this.#peak2 = column()
    this.#start2 = column()
    this.#last[lastFeed] = firstFeed
  }

  /** Asks for the time at which the moves taken so far end: a ticket for `timeOf`. */
  ask(): number {
    const last = this.#asked.length - 1
    // A rest may have come between: then the same place has two times.
    const open = last >= this.#times.length || this.#times.at(last) === this.time
    if (last >= 0 && this.#asked.at(last) === this.taken && open) return last
    this.#asked.push(this.taken)
    if (this.#size === 0) this.#times.push(this.time)
    return last + 1
  }

  /** Moves that the window has room for. */
  get room(): number {
    return this.#length.length
  }

  /** The time of a ticket, s; only after `finish`. */
  timeOf(ticket: number): number {
    return this.#times.at(ticket)
  }

  /** The print comes to rest here and stays so, s. */
  rest(seconds: number): void {
    this.#plan(true)
    this.#atRest = true
    this.time += seconds
  }

  /** The next move begins at rest. */
  stop(): void {
    this.#atRest = true
  }

  /** Ends the print: every ticket has its time after it. */
  finish(): void {
    this.#plan(true)
  }

  /**
   * Takes moves.
   *
   * @param moves - rows of `moveColumns` numbers
   */
  take(moves: Float64Array, count: number): void {
    const { profile, rules, speedFactor, kindsStop } = this.#limits
    const { corner, printAccel, travelAccel, retractAccel, feederCorner, junctionDeviation } =
      profile
    const [maxX, maxY, maxZ, maxE] = profile.maxFeed
    const [accelX, accelY, accelZ, accelE] = profile.maxAccel
    const [jerkX, jerkY, jerkZ, jerkE] = profile.jerk
    const { reversalCountsOnce, curvesOfShortChords, feederAloneStops, feederLimitsPrinting } =
      rules
    const perMinute = speedFactor / 60
    const byJerk = corner === 'jerk'
    const smoothing = corner === 'square-corner'
    const smoothShare = 1 - profile.minimumCruise
    const squareDeviation = squareCornerDeviation(profile.squareCorner)
    const last = this.#last
    let beforeX = last[lastX]!
    let beforeY = last[lastY]!
    let beforeZ = last[lastZ]!
    let beforeE = last[lastE]!
    let beforeCruise2 = last[lastCruise2]!
    let beforeReach2 = last[lastReach2]!
    let beforeDeviation = last[lastDeviation]!
    let beforeBegin2 = last[lastBegin2]!
    let beforeSmooth2 = last[lastSmooth2]!
    let feed = last[lastFeed]!
    let beforeKind = this.#kind
    let atRest = this.#atRest
    let size = this.#size

    for (let row = 0, end = count * moveColumns; row < end; row += moveColumns) {
      const dx = moves[row]!
      const dy = moves[row + 1]!
      const dz = moves[row + 2]!
      const de = moves[row + 3]!
      const asked = moves[row + 4]!
      if (asked > 0) feed = asked
      let length = Math.sqrt(dx * dx + dy * dy + dz * dz)
      let kind = dx !== 0 || dy !== 0 ? (de > 0 ? travels | prints : travels) : 0
      if (length < shortest) {
        length = Math.abs(de)
        if (length < shortest) continue
        kind = feederAlone
      }
      const alone = kind === feederAlone
      const per = 1 / length
      const ux = alone ? 0 : dx * per
      const uy = alone ? 0 : dy * per
      const uz = alone ? 0 : dz * per
      const ue = de * per

      // The move's own limits: no axis faster than it may go.
      let speed = feed * perMinute
      let accel = alone ? retractAccel : de === 0 ? travelAccel : printAccel
      const ax = Math.abs(ux)
      const ay = Math.abs(uy)
      if (ax * speed > maxX) speed = maxX / ax
      if (ay * speed > maxY) speed = maxY / ay
      if (ax * accel > accelX) accel = accelX / ax
      if (ay * accel > accelY) accel = accelY / ay
      if (uz !== 0) {
        const az = Math.abs(uz)
        if (az * speed > maxZ) speed = maxZ / az
        if (az * accel > accelZ) accel = accelZ / az
      }
      if (ue !== 0 && (feederLimitsPrinting || alone || ue < 0)) {
        const ae = Math.abs(ue)
        if (ae * speed > maxE) speed = maxE / ae
        if (ae * accel > accelE) accel = accelE / ae
      }
      const cruise2 = speed * speed
      const reach2 = 2 * accel * length

      // The corner before it.
      let begin2 = cruise2 < beforeCruise2 ? cruise2 : beforeCruise2
      if (
        atRest ||
        (kind !== beforeKind && kindsStop) ||
        (feederAloneStops && ((kind | beforeKind) & feederAlone) !== 0)
      ) {
        begin2 = 0
      } else if (byJerk) {
        // 1/v of the fastest corner at which no axis jumps by more than it may.
        const most = Math.max(
          jump(beforeX, ux, reversalCountsOnce) / jerkX,
          jump(beforeY, uy, reversalCountsOnce) / jerkY,
          jump(beforeZ, uz, reversalCountsOnce) / jerkZ,
          jump(beforeE, ue, reversalCountsOnce) / jerkE,
        )
        if (most * most * begin2 > 1) begin2 = 1 / (most * most)
      } else if (smoothing) {
        const cos = ux * beforeX + uy * beforeY + uz * beforeZ
        begin2 = Math.min(
          begin2,
          junctionSpeed2(Math.min(squareDeviation, beforeDeviation), cos),
          midpointSpeed2(Math.min(reach2, beforeReach2), cos),
        )
        const feederJump = Math.abs(ue - beforeE)
        if (feederJump * feederJump * begin2 > feederCorner * feederCorner) {
          begin2 = (feederCorner * feederCorner) / (feederJump * feederJump)
        }
      } else {
        const cos = ux * beforeX + uy * beforeY + uz * beforeZ + ue * beforeE
        begin2 = underJunction(begin2, accel * junctionDeviation, cos)
        if (curvesOfShortChords && length < curveChord && cos > curveCosine) {
          begin2 = underChord(begin2, accel * length, cos)
        }
      }

      if (size === this.#length.length) {
        this.#size = size
        this.#makeRoom()
        size = this.#size
      }
      if (smoothing) {
        begin2 = Math.min(begin2, beforeBegin2 + beforeReach2)
        const smooth2 = Math.min(begin2, beforeSmooth2 + beforeReach2 * smoothShare)
        this.#smooth2[size] = smooth2
        this.#smoothReach2[size] = reach2 * smoothShare
        beforeBegin2 = begin2
        beforeSmooth2 = smooth2
      }
      this.#length[size] = length
      this.#begin2[size] = begin2
      this.#cruise2[size] = cruise2
      this.#reach2[size] = reach2
      this.#perAccel[size] = 1 / accel
      size++
      this.taken++
      atRest = false
      beforeKind = kind
      beforeX = ux
      beforeY = uy
      beforeZ = uz
      beforeE = ue
      beforeCruise2 = cruise2
      beforeReach2 = reach2
      beforeDeviation = squareDeviation
    }
    last[lastX] = beforeX
    last[lastY] = beforeY
    last[lastZ] = beforeZ
    last[lastE] = beforeE
    last[lastCruise2] = beforeCruise2
    last[lastReach2] = beforeReach2
    last[lastDeviation] = beforeDeviation
    last[lastBegin2] = beforeBegin2
    last[lastSmooth2] = beforeSmooth2
    last[lastFeed] = feed
    this.#kind = beforeKind
    this.#atRest = atRest
    this.#size = size
  }

  /** Plans the full window; where too little of it became final it grows, or is cut. */
  #makeRoom(): void {
    const { length } = this.#length
    this.#plan(false)
    if (this.#size <= length / 2) return
    if (length < farthest) this.#grow(2 * length)
    else this.#settle(length / 2)
  }

  #grow(size: number): void {
    const larger = (column: Float64Array): Float64Array => {
      const fresh = new Float64Array(size)
      fresh.set(column)
      return fresh
    }
    this.#length = larger(this.#length)
    this.#begin2 = larger(this.#begin2)
    this.#cruise2 = larger(this.#cruise2)
    this.#reach2 = larger(this.#reach2)
    this.#perAccel = larger(this.#perAccel)
    this.#smooth2 = larger(this.#smooth2)
    this.#smoothReach2 = larger(this.#smoothReach2)
    this.#peak2 = larger(this.#peak2)
    this.#start2 = larger(this.#start2)
  }

  /** @param all - the print comes to rest behind the window, so all of it is final */
  #plan(all: boolean): void {
    const smoothing = this.#limits.profile.corner === 'square-corner'
    const final = smoothing ? this.#planSmoothed() : this.#planBack()
    this.#settle(all ? this.#size : final)
  }

  /** The backward pass; returns how many moves are final whatever comes. */
  #planBack(): number {
    const begin2 = this.#begin2
    const reach2 = this.#reach2
    const start2 = this.#start2
    const peak2 = this.#peak2
    const cruise2 = this.#cruise2
    let final = 0
    let next2 = 0
    for (let at = this.#size - 1; at >= 0; at--) {
      const reachable2 = next2 + reach2[at]!
      const cap2 = begin2[at]!
      if (reachable2 >= cap2) {
        next2 = cap2
        if (final === 0) final = at
      } else next2 = reachable2
      start2[at] = next2
      peak2[at] = cruise2[at]!
    }
    return final
  }

  /** The backward pass of the square-corner rule. */
  #planSmoothed(): number {
    const begin2 = this.#begin2
    const reach2 = this.#reach2
    const smooth2 = this.#smooth2
    const smoothReach2 = this.#smoothReach2
    const start2 = this.#start2
    const peak2 = this.#peak2
    const cruise2 = this.#cruise2
    let final = 0
    /** Speeds of what comes are final. */
    let sure = false
    let next2 = 0
    let nextSmooth2 = 0
    /** Peak of the smoothed speeds last found. */
    let top2 = 0
    /** Moves behind this one that only slow down and wait for their peak. */
    let waiting = 0
    for (let at = this.#size - 1; at >= 0; at--) {
      const reachable2 = next2 + reach2[at]!
      const now2 = Math.min(begin2[at]!, reachable2)
      const ownReach2 = smoothReach2[at]!
      const smoothReachable2 = nextSmooth2 + ownReach2
      const smoothNow2 = Math.min(smooth2[at]!, smoothReachable2)
      start2[at] = now2
      if (smoothNow2 < smoothReachable2) {
        // It may speed up. Where it also slows down, or moves behind it do, here is a peak.
        if (waiting > 0 || smoothNow2 + ownReach2 > nextSmooth2) {
          top2 = Math.min(cruise2[at]!, (smoothNow2 + smoothReachable2) / 2)
          let cap2 = top2
          for (let behind = at + 1; behind <= at + waiting; behind++) {
            cap2 = Math.min(cap2, start2[behind]!)
            peak2[behind] = cap2
          }
          waiting = 0
          if (sure && final === 0) final = at
        }
        peak2[at] = Math.min(cruise2[at]!, (now2 + reachable2) / 2, top2)
        if (now2 === begin2[at]) sure = true
      } else waiting++
      next2 = now2
      nextSmooth2 = smoothNow2
    }
    // The window begins with a peak, or where the print began; these are left over by a cut.
    for (let at = 0; at < waiting; at++) peak2[at] = cruise2[at]!
    return final
  }

  /** The forward pass over the first moves of the window, which are final, and their time. */
  #settle(count: number): void {
    const size = this.#size
    const before = this.taken - size
    const asked = this.#asked
    const times = this.#times
    for (let done = 0; done <= count; ) {
      const next = times.length < asked.length ? asked.at(times.length) - before : size + 1
      if (next <= done) {
        times.push(this.time)
        continue
      }
      if (done === count) break
      const to = Math.min(count, next)
      this.#run(done, to)
      done = to
    }
    this.#forget(count)
  }

  #run(first: number, end: number): void {
    const length = this.#length
    const peak2 = this.#peak2
    const reach2 = this.#reach2
    const perAccel = this.#perAccel
    const start2 = this.#start2
    const last = this.#size - 1
    let from2 = this.#from2
    let from = this.#from
    let time = this.time
    for (let at = first; at < end; at++) {
      const cap2 = peak2[at]!
      const own2 = reach2[at]!
      let to2 = 0
      if (at < last) to2 = Math.min(start2[at + 1]!, from2 + own2, cap2, peak2[at + 1]!)
      const to = to2 === from2 ? from : Math.sqrt(to2)
      const ends2 = from2 + to2
      const top2 = Math.max((ends2 + own2) / 2, from2)
      if (top2 <= cap2) {
        time += (2 * Math.sqrt(top2) - from - to) * perAccel[at]!
      } else {
        const peak = cap2 === to2 ? to : cap2 === from2 ? from : Math.sqrt(cap2)
        const slopes = (cap2 - ends2 / 2) * perAccel[at]!
        time += (2 * peak - from - to) * perAccel[at]! + Math.max(0, length[at]! - slopes) / peak
      }
      from2 = to2
      from = to
    }
    this.#from2 = from2
    this.#from = from
    this.time = time
  }

  #forget(count: number): void {
    if (count === 0) return
    const size = this.#size
    this.#size = size - count
    if (count === size) return
    this.#length.copyWithin(0, count, size)
    this.#begin2.copyWithin(0, count, size)
    this.#cruise2.copyWithin(0, count, size)
    this.#reach2.copyWithin(0, count, size)
    this.#perAccel.copyWithin(0, count, size)
    if (this.#limits.profile.corner !== 'square-corner') return
    this.#smooth2.copyWithin(0, count, size)
    this.#smoothReach2.copyWithin(0, count, size)
  }
}

/** By how much an axis' share of the speed jumps. */
const jump = (before: number, after: number, reversalCountsOnce: boolean): number =>
  reversalCountsOnce && before * after < 0
    ? Math.max(Math.abs(before), Math.abs(after))
    : Math.abs(after - before)
