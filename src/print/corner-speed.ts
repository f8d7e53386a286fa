/**
 * Squares of corner speeds, mm²/s². `cos` is the cosine of the change of direction: 1 straight on,
 * 0 a right angle, −1 back. All are reckoned by the square, as look-ahead is.
 */

/** Beyond this a corner is straight, or turns back. */
const straight = 0.999_999

/** √2 − 1. */
const rightAngle = Math.SQRT2 - 1

/**
 * The junction-deviation rule: v² = a·δ·s/(1 − s), s = sin(θ/2) with θ the angle between the moves
 * (180° straight on). No limit straight on; rest where the path turns back.
 *
 * @param accelDeviation - a·δ, mm²/s²
 * @see S. Jeon, Improving Grbl: Cornering Algorithm, 2011
 */
export const junctionSpeed2 = (accelDeviation: number, cos: number): number => {
  if (cos >= straight) return Number.POSITIVE_INFINITY
  if (cos <= -straight) return 0
  const sine = Math.sqrt(0.5 * (1 + cos))
  return (accelDeviation * sine) / (1 - sine)
}

/** The lower of a square of a speed and `junctionSpeed2`: asked so, it seldom needs a root. */
export const underJunction = (speed2: number, accelDeviation: number, cos: number): number => {
  // v² ≤ a·δ·s/(1 − s) is s ≥ v²/(a·δ + v²).
  const least = speed2 / (accelDeviation + speed2)
  if (cos > -straight && 0.5 * (1 + cos) >= least * least) return speed2
  return Math.min(speed2, junctionSpeed2(accelDeviation, cos))
}

/**
 * The junction deviation of a speed at a right angle: δ = v²(√2 − 1)/a. What is returned is a·δ, in
 * which the acceleration no longer stands.
 *
 * @param speed - mm/s
 */
export const squareCornerDeviation = (speed: number): number => speed * speed * rightAngle

/**
 * v² ≤ ½·L·a·tan(θ/2): the circle touches a move no further off than its middle.
 *
 * @param reach2 - 2·a·L, mm²/s²
 */
export const midpointSpeed2 = (reach2: number, cos: number): number =>
  // tan(θ/2) = √((1 + cos)/(1 − cos)) of the change of direction.
  cos >= 1
    ? Number.POSITIVE_INFINITY
    : 0.25 * reach2 * Math.sqrt(Math.max(0, (1 + cos) / (1 - cos)))

/** Far enough above 1 + off/12 + … up to 45°, squared. */
const seriesAtMost = 1.06

/**
 * The lower of a square of a speed and a·L/φ: a chord that turns by φ lies on a circle of radius L/φ.
 *
 * @param accelLength - a·L, mm²/s²
 * @param cos - of a turn of at most 45°
 */
export const underChord = (speed2: number, accelLength: number, cos: number): number => {
  const off = 1 - cos
  // φ² is less than the left side over v⁴: most chords are slow enough for their curve.
  if (2 * seriesAtMost * off * speed2 * speed2 <= accelLength * accelLength) return speed2
  // arccos(1 − x) as a series: within 2e-5 of it up to 45°.
  const angle = Math.sqrt(2 * off) * (1 + off * (1 / 12 + off * (3 / 160 + off * (5 / 896))))
  return Math.min(speed2, accelLength / angle)
}
