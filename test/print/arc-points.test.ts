import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { arcPoints } from '../../src/print/arc-points.ts'
import { type Arc, arcLength } from '../../src/print/index.ts'

const coordinate = fc.integer({ min: -500, max: 500 }).map((tenths) => tenths / 10)

test('points of an arc lie on its circle, evenly, from start to end, the way it turns', () => {
  const circle = fc.record({
    x: coordinate,
    y: coordinate,
    radius: fc.integer({ min: 1, max: 900 }).map((tenths) => tenths / 10),
    start: fc.double({ min: -3, max: 3, noNaN: true }),
    sweep: fc.double({ min: 0.05, max: 6.2, noNaN: true }),
    clockwise: fc.boolean(),
    byRadius: fc.boolean(),
    rise: fc.constantFrom(0, 0.5, -2),
  })
  fc.assert(
    fc.property(circle, ({ x, y, radius, start, sweep, clockwise, byRadius, rise }) => {
      const on = (angle: number): { x: number; y: number } => ({
        x: x + radius * Math.cos(angle),
        y: y + radius * Math.sin(angle),
      })
      const end = start + (clockwise ? -sweep : sweep)
      const from = { ...on(start), z: 1 }
      const to = { ...on(end), z: 1 + rise }
      // Near half a turn a radius says little about the centre.
      fc.pre(!byRadius || Math.abs(sweep - Math.PI) > 0.05)
      const about = byRadius
        ? { radius: sweep < Math.PI ? radius : -radius }
        : { i: x - from.x, j: y - from.y }
      const arc: Arc = { from, to, clockwise, about }
      const points = arcPoints(arc)
      expect(points[0]).toEqual(from)
      expect(points.at(-1)).toEqual(to)
      expect(points.length).toBe(Math.ceil((sweep / (2 * Math.PI)) * 32 - 1e-6) + 1)
      points.forEach((point, k) => {
        const share = k / (points.length - 1)
        const want = on(start + (end - start) * share)
        expect(Math.hypot(point.x - want.x, point.y - want.y)).toBeLessThan(1e-5 * radius)
        expect(point.z).toBeCloseTo(1 + rise * share, 9)
      })
    }),
    { seed: 20_261_125, numRuns: 500 },
  )
})

test('chords are as long as the arc within half a per cent', () => {
  const arc: Arc = {
    from: { x: 10, y: 0, z: 0 },
    to: { x: 10, y: 0, z: 0 },
    clockwise: true,
    about: { i: -10, j: 0 },
  }
  const points = arcPoints(arc)
  expect(points.length).toBe(33)
  const chords = points
    .slice(1)
    .map((point, k) => Math.hypot(point.x - points[k]!.x, point.y - points[k]!.y))
    .reduce((a, b) => a + b, 0)
  expect(chords / arcLength(arc)!).toBeGreaterThan(0.995)
  expect(chords / arcLength(arc)!).toBeLessThan(1)
})

test('an arc that does not exist is a straight way', () => {
  const from = { x: 0, y: 0, z: 0 }
  const to = { x: 10, y: 0, z: 1 }
  expect(arcPoints({ from, to, clockwise: true, about: { i: 1, j: 0 } })).toEqual([from, to])
  expect(arcPoints({ from, to, clockwise: true, about: { radius: 2 } })).toEqual([from, to])
})
