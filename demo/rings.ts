import type { MachineCode, Point } from './machine-code.ts'

/** Concentric rings: `count` of them, radii from `inner` on in equal steps, mm. */
export interface Rings {
  readonly inner: number
  readonly step: number
  readonly count: number
}

/** Sum of the radii, mm: an arithmetic series. */
export const sumOfRadii = ({ inner, step, count }: Rings): number =>
  count * inner + (step * count * (count - 1)) / 2

/** Path of the rings drawn as true arcs, mm. */
export const arcRingsPath = (rings: Rings): number => 2 * Math.PI * sumOfRadii(rings)

/** Path of the rings drawn as polygons of `sides` chords, mm: a chord is 2 r sin(π / sides). */
export const chordRingsPath = (rings: Rings, sides: number): number =>
  2 * sides * Math.sin(Math.PI / sides) * sumOfRadii(rings)

/** Draws each ring as two half circles, every other ring clockwise. */
export const drawArcRings = (code: MachineCode, centre: Point, rings: Rings): void => {
  for (let ring = 0; ring < rings.count; ring += 1) {
    const radius = rings.inner + rings.step * ring
    const turn = ring % 2 === 0 ? Math.PI : -Math.PI
    code
      .hop({ x: centre.x + radius, y: centre.y })
      .arc(centre, turn)
      .arc(centre, turn)
  }
}

/** Draws each ring as a polygon. */
export const drawChordRings = (
  code: MachineCode,
  centre: Point,
  rings: Rings,
  sides: number,
): void => {
  for (let ring = 0; ring < rings.count; ring += 1) {
    const radius = rings.inner + rings.step * ring
    code.hop(onCircle(centre, radius, 0))
    for (let side = 1; side <= sides; side += 1) {
      code.draw(onCircle(centre, radius, side / sides))
    }
  }
}

/** The point `turns` round the circle, from the right, anticlockwise. */
export const onCircle = (centre: Point, radius: number, turns: number): Point => ({
  x: centre.x + radius * Math.cos(2 * Math.PI * turns),
  y: centre.y + radius * Math.sin(2 * Math.PI * turns),
})
