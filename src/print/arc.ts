import { DomainError } from '../units/index.ts'

/** A point the nozzle is sent to, mm. */
export interface ArcPoint {
  readonly x: number
  readonly y: number
  readonly z: number
}

/** A G2 or G3 move in the XY plane; its Z may change on the way (a helix). Lengths in mm. */
export interface Arc {
  readonly from: ArcPoint
  readonly to: ArcPoint
  /** True for G2: seen from above. */
  readonly clockwise: boolean
  /**
   * The centre as offsets from the start (I and J, never absolute), or the radius (R): above zero
   * the arc turns by less than half a circle, below zero by more.
   */
  readonly about: { readonly i: number; readonly j: number } | { readonly radius: number }
  /** Whole turns on top of the arc, 0 or more; default 0. */
  readonly extraTurns?: number
}

const fullTurn = 2 * Math.PI

/**
 * Length of the path of an arc.
 *
 * With a centre, an end that is the start in X and Y means a full circle. Where the radii at start
 * and end differ within the tolerance (0.5 mm; and 0.005 mm or 0.1 % of the radius, whichever is
 * more), their mean is taken.
 *
 * @returns mm, ≥ 0; null when no such arc exists: the centre is the start, the radii differ, the
 *   radius is too short to reach the end, or a radius is given and the end is the start
 * @throws DomainError `arc_not_finite`, `turns_not_whole`
 * @see the rules of RS-274/NGC on arcs, and the tolerance of a controller that follows it, as in
 *   test/outside/rs274.test.ts
 */
export function arcLength(arc: Arc): number | null {
  const { from, to, extraTurns = 0 } = arc
  const given = [...Object.values(from), ...Object.values(to), ...Object.values(arc.about)]
  if (!given.every(Number.isFinite)) {
    throw new DomainError('arc_not_finite', 'An arc has a coordinate that is not a finite number.')
  }
  if (!Number.isInteger(extraTurns) || extraTurns < 0) {
    throw new DomainError('turns_not_whole', 'Extra turns of an arc are 0, 1, 2, …')
  }
  const plane = planeArc(arc)
  if (plane === null) return null
  const { radius, sweep } = plane
  return Math.hypot(radius * (sweep + extraTurns * fullTurn), to.z - from.z)
}

/** An arc in the XY plane, mm. */
interface PlaneArc {
  readonly centre: { readonly x: number; readonly y: number }
  readonly radius: number
  /** rad, > 0. */
  readonly sweep: number
}

/** Centre, radius and sweep; null when no such arc exists. */
export function planeArc(arc: Arc): PlaneArc | null {
  return 'radius' in arc.about ? byRadius(arc, arc.about.radius) : byCentre(arc, arc.about)
}

/** Whether two lengths that ought to be equal differ by more than rounding explains. */
const tooFar = (off: number, radius: number): boolean =>
  off > 0.5 || off > Math.max(0.005, 0.001 * radius)

function byCentre(
  { from, to, clockwise }: Arc,
  { i, j }: { readonly i: number; readonly j: number },
): PlaneArc | null {
  const startRadius = Math.hypot(i, j)
  const endX = to.x - from.x - i
  const endY = to.y - from.y - j
  const endRadius = Math.hypot(endX, endY)
  if (startRadius === 0 || tooFar(Math.abs(endRadius - startRadius), startRadius)) return null
  const radius = (startRadius + endRadius) / 2
  const centre = { x: from.x + i, y: from.y + j }
  if (from.x === to.x && from.y === to.y) return { centre, radius, sweep: fullTurn }
  const turned = Math.atan2(endY, endX) - Math.atan2(-j, -i)
  const sweep = (clockwise ? -turned : turned) % fullTurn
  return { centre, radius, sweep: sweep < 0 ? sweep + fullTurn : sweep }
}

function byRadius({ from, to, clockwise }: Arc, signed: number): PlaneArc | null {
  const dx = to.x - from.x
  const dy = to.y - from.y
  const halfChord = Math.hypot(dx, dy) / 2
  const short = halfChord - Math.abs(signed)
  if (signed === 0 || halfChord === 0 || tooFar(short, halfChord)) return null
  const radius = Math.max(Math.abs(signed), halfChord)
  const minor = 2 * Math.asin(halfChord / radius)
  // The centre stands off the chord's middle: to its right for a clockwise arc under half a turn.
  const off = Math.sqrt(Math.max(0, radius * radius - halfChord * halfChord)) / (2 * halfChord)
  const side = clockwise === signed > 0 ? off : -off
  const centre = { x: from.x + dx / 2 + dy * side, y: from.y + dy / 2 - dx * side }
  return { centre, radius, sweep: signed > 0 ? minor : fullTurn - minor }
}
