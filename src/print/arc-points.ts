import { type Arc, type ArcPoint, planeArc } from './arc.ts'

const pointsPerTurn = 32

/**
 * Points along an arc, start and end included, so near each other that a chord stays within half a
 * per cent of the radius. An arc that does not exist is a straight way.
 *
 * Whole turns on top of the arc run along the same circle and are left out, as is their climbing.
 *
 * @param arc - with finite numbers
 * @param chords - how many there are to be, where it is not to be found so
 */
export function arcPoints(arc: Arc, chords?: number): ArcPoint[] {
  const { from, to, clockwise } = arc
  const plane = planeArc(arc)
  if (plane === null) return [from, to]
  const { sweep, centre } = plane
  const count = chords ?? Math.max(1, Math.ceil((sweep / (2 * Math.PI)) * pointsPerTurn))
  const points = [from]
  const dx = from.x - centre.x
  const dy = from.y - centre.y
  for (let k = 1; k < count; k++) {
    const share = k / count
    const turn = (clockwise ? -sweep : sweep) * share
    const cos = Math.cos(turn)
    const sin = Math.sin(turn)
    points.push({
      x: centre.x + dx * cos - dy * sin,
      y: centre.y + dx * sin + dy * cos,
      z: from.z + (to.z - from.z) * share,
    })
  }
  points.push(to)
  return points
}
