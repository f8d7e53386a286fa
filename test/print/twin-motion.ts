/**
 * The slow twin of the planner: the rules of docs/method/time.md by angles and speeds, over the whole
 * path at once, and time by brute force: the path is cut into thousands of short pieces, each piece is
 * driven as fast as the caps allow from both its sides, and no formula of a trapezoid is used.
 */
import type { MotionProfile, MotionRules } from '../../src/print/motion-profile.ts'

/** Way and feed, mm, and the speed asked for, mm/s. */
export interface TwinMove {
  readonly way: readonly [number, number, number]
  readonly feed: number
  readonly speed: number
  /** The path rests before it. */
  readonly afterRest?: boolean
}

interface Planned {
  readonly length: number
  readonly alone: boolean
  /** Share of the speed that each axis has. */
  readonly share: readonly [number, number, number, number]
  readonly speed: number
  readonly accel: number
  readonly kind: string
  readonly afterRest: boolean
}

const size = (v: readonly number[]): number => Math.hypot(...v)

const planned = (move: TwinMove, profile: MotionProfile, rules: MotionRules): Planned => {
  const way = size(move.way)
  const alone = way === 0
  const length = alone ? Math.abs(move.feed) : way
  const share = [...move.way, move.feed].map((part) => part / length) as [
    number,
    number,
    number,
    number,
  ]
  let speed = move.speed
  let accel = profile.printAccel
  if (move.feed === 0) accel = profile.travelAccel
  if (alone) accel = profile.retractAccel
  share.forEach((part, axis) => {
    if (part === 0) return
    if (axis === 3 && !rules.feederLimitsPrinting && !alone && part > 0) return
    speed = Math.min(speed, profile.maxFeed[axis]! / Math.abs(part))
    accel = Math.min(accel, profile.maxAccel[axis]! / Math.abs(part))
  })
  const travels = move.way[0] !== 0 || move.way[1] !== 0
  const kind = alone ? 'alone' : `${travels} ${travels && move.feed > 0}`
  return { length, alone, share, speed, accel, kind, afterRest: move.afterRest ?? false }
}

/** Speed of a circle that touches both moves and passes the corner at `deviation`. */
const circleSpeed = (deviation: number, accel: number, turn: number): number => {
  const half = Math.sin((Math.PI - turn) / 2)
  return Math.sqrt((accel * deviation * half) / (1 - half))
}

const cornerSpeed = (
  before: Planned,
  after: Planned,
  profile: MotionProfile,
  rules: MotionRules,
): number => {
  const cap = Math.min(before.speed, after.speed)
  if (after.afterRest) return 0
  if (rules.feederAloneStops && (before.alone || after.alone)) return 0
  if (rules.kindsStop && before.kind !== after.kind) return 0
  const axes = profile.corner === 'junction-deviation' ? [0, 1, 2, 3] : [0, 1, 2]
  const dot = axes.reduce((sum, axis) => sum + before.share[axis]! * after.share[axis]!, 0)
  if (profile.corner === 'jerk') {
    return profile.jerk.reduce((speed, jerk, axis) => {
      const [a, b] = [before.share[axis]!, after.share[axis]!]
      const turnsBack = Math.sign(a) * Math.sign(b) < 0
      const jumps =
        rules.reversalCountsOnce && turnsBack ? Math.max(Math.abs(a), Math.abs(b)) : Math.abs(a - b)
      return jumps === 0 ? speed : Math.min(speed, jerk / jumps)
    }, cap)
  }
  if (dot <= -0.999_999) return 0
  const straight = dot >= 0.999_999
  const turn = Math.acos(Math.min(1, dot))
  if (profile.corner === 'junction-deviation') {
    let speed = cap
    if (!straight) {
      speed = Math.min(speed, circleSpeed(profile.junctionDeviation, after.accel, turn))
    }
    if (rules.curvesOfShortChords && after.length < 1 && turn < Math.PI / 4 && turn > 1e-9) {
      speed = Math.min(speed, Math.sqrt((after.accel * after.length) / turn))
    }
    return speed
  }
  let speed = cap
  if (!straight) {
    for (const { accel } of [before, after]) {
      const deviation = (profile.squareCorner ** 2 * (Math.sqrt(2) - 1)) / accel
      speed = Math.min(speed, circleSpeed(deviation, accel, turn))
    }
  }
  if (turn > 1e-9) {
    for (const { accel, length } of [before, after]) {
      const tan = Math.tan((Math.PI - turn) / 2)
      speed = Math.min(speed, Math.sqrt(0.5 * length * accel * tan))
    }
  }
  const feederJumps = Math.abs(after.share[3] - before.share[3])
  return feederJumps === 0 ? speed : Math.min(speed, profile.feederCorner / feederJumps)
}

/** Highest speeds at the begin of each move, and at the end, under caps; the path rests around it. */
const reachable = (
  moves: readonly Planned[],
  corners: readonly number[],
  accelShare: number,
): number[] => {
  const speeds = [...corners, 0]
  const change = (at: number): number => 2 * moves[at]!.accel * accelShare * moves[at]!.length
  for (let at = 0; at < moves.length; at++) {
    speeds[at + 1] = Math.min(speeds[at + 1]!, Math.sqrt(speeds[at]! ** 2 + change(at)))
  }
  for (let at = moves.length - 1; at >= 0; at--) {
    speeds[at] = Math.min(speeds[at]!, Math.sqrt(speeds[at + 1]! ** 2 + change(at)))
  }
  return speeds
}

/** Speeds are squared and their roots taken: what is equal differs by rounding. */
const clearlyLess = (a: number, b: number): boolean => b - a > 1e-9 * b

/**
 * Cruising caps of the minimum cruise ratio: at the lower acceleration speed rises and falls; each
 * such hill has a summit, and no move of the hill goes faster than that.
 */
const cruiseCaps = (
  moves: readonly Planned[],
  corners: readonly number[],
  share: number,
): number[] => {
  // Forward limits are taken over from the corners' own caps first, as the firmware does.
  const forward = (accelShare: number, caps: readonly number[]): number[] => {
    const speeds = [...caps]
    for (let at = 1; at < moves.length; at++) {
      const { accel, length } = moves[at - 1]!
      const reach = Math.sqrt(speeds[at - 1]! ** 2 + 2 * accel * accelShare * length)
      speeds[at] = Math.min(speeds[at]!, reach)
    }
    return speeds
  }
  const full = forward(1, corners)
  const slow = forward(share, full)
  const full2 = reachable(moves, full, 1).map((speed) => speed ** 2)
  const slow2 = [...slow.map((speed) => speed ** 2), 0]
  const caps: number[] = []
  let falling: number[] = []
  let summit2 = 0
  for (let at = moves.length - 1; at >= 0; at--) {
    const { accel, length, speed } = moves[at]!
    const fallen2 = slow2[at + 1]! + 2 * accel * share * length
    if (clearlyLess(slow2[at]!, fallen2)) {
      const slows = clearlyLess(slow2[at + 1]!, slow2[at]! + 2 * accel * share * length)
      if (slows || falling.length > 0) {
        summit2 = Math.min(speed ** 2, (slow2[at]! + fallen2) / 2)
        let cap2 = summit2
        for (const each of falling.toReversed()) {
          cap2 = Math.min(cap2, full2[each]!)
          caps[each] = Math.sqrt(cap2)
        }
        falling = []
      }
      const middle2 = (full2[at]! + full2[at + 1]! + 2 * accel * length) / 2
      caps[at] = Math.min(speed, Math.sqrt(summit2), Math.sqrt(middle2))
    } else {
      slow2[at] = fallen2
      falling.push(at)
    }
  }
  return caps
}

/**
 * Time at the end of each move of a path that begins and ends at rest, s.
 *
 * @param step - length of the pieces that the path is cut into at most, mm
 */
export const twinTimes = (
  path: readonly TwinMove[],
  profile: MotionProfile,
  rules: MotionRules,
  step = 0.002,
): number[] => {
  const moves = path.map((move) => planned(move, profile, rules))
  const corners = moves.map((move, at) =>
    at === 0 ? 0 : cornerSpeed(moves[at - 1]!, move, profile, rules),
  )
  const smoothed = profile.corner === 'square-corner'
  const caps = smoothed
    ? cruiseCaps(moves, corners, 1 - profile.minimumCruise)
    : moves.map(({ speed }) => speed)
  // Every piece: its length, and the cap at its begin.
  const pieces: { ds: number; accel: number; cap: number }[] = []
  const ends: number[] = []
  moves.forEach(({ length, accel, speed }, at) => {
    // Where a move is slow and rises quickly, the way on which it rises is many pieces too.
    const rise = speed ** 2 / (2 * accel)
    const count = Math.max(16, Math.ceil(length / Math.min(step, rise / 16)))
    for (let k = 0; k < count; k++) {
      const corner = k === 0 ? Math.min(corners[at]!, caps[at - 1] ?? 0) : Number.POSITIVE_INFINITY
      pieces.push({ ds: length / count, accel, cap: Math.min(corner, caps[at]!) })
    }
    ends.push(pieces.length)
  })
  const speeds = new Float64Array(pieces.length + 1)
  for (let at = pieces.length - 1; at >= 0; at--) {
    const { ds, accel, cap } = pieces[at]!
    speeds[at] = Math.min(cap, Math.sqrt(speeds[at + 1]! ** 2 + 2 * accel * ds))
  }
  const times: number[] = []
  let time = 0
  for (let at = 0, move = 0; at < pieces.length; at++) {
    const { ds, accel } = pieces[at]!
    const to = Math.min(speeds[at + 1]!, Math.sqrt(speeds[at]! ** 2 + 2 * accel * ds))
    speeds[at + 1] = to
    // Between its ends a piece may speed up and slow down again.
    const top = Math.sqrt((speeds[at]! ** 2 + to ** 2) / 2 + accel * ds)
    const inside = moves[move]!
    const cap = Math.min(caps[move]!, inside.speed)
    const mean = (speeds[at]! + to) / 2
    time += mean > 0 ? ds / mean : 2 * Math.sqrt(ds / accel)
    if (top < mean || cap < 0) throw new Error('a piece slows down faster than it may')
    if (at + 1 === ends[move]) {
      times.push(time)
      move++
    }
  }
  return times
}
