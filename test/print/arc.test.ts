import * as fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { type Arc, arcLength } from '../../src/print/arc.ts'
import { DomainError } from '../../src/units/index.ts'

const origin = { x: 0, y: 0, z: 0 }
const at = (x: number, y: number, z = 0): Arc['to'] => ({ x, y, z })
const arc = (part: Partial<Arc>): Arc => ({
  from: origin,
  to: at(20, 0),
  clockwise: false,
  about: { i: 10, j: 0 },
  ...part,
})

describe('with a centre', () => {
  it('half a circle either way', () => {
    expect(arcLength(arc({}))).toBeCloseTo(10 * Math.PI, 9)
    expect(arcLength(arc({ clockwise: true }))).toBeCloseTo(10 * Math.PI, 9)
  })
  it('a quarter one way is three quarters the other', () => {
    const to = at(10, 10)
    expect(arcLength(arc({ to, clockwise: true }))).toBeCloseTo(5 * Math.PI, 9)
    expect(arcLength(arc({ to }))).toBeCloseTo(15 * Math.PI, 9)
  })
  it('a full circle when the end is the start', () => {
    expect(arcLength(arc({ to: origin }))).toBeCloseTo(20 * Math.PI, 9)
  })
  it('turns on top', () => {
    expect(arcLength(arc({ to: origin, extraTurns: 2 }))).toBeCloseTo(60 * Math.PI, 9)
  })
  it('a helix: its plane length and its climb at right angles', () => {
    expect(arcLength(arc({ to: at(0, 0, 3) }))).toBeCloseTo(Math.hypot(20 * Math.PI, 3), 9)
    expect(arcLength(arc({ to: at(0, 0, -3) }))).toBeCloseTo(Math.hypot(20 * Math.PI, 3), 9)
  })
  it('none about its own start', () => {
    expect(arcLength(arc({ about: { i: 0, j: 0 } }))).toBeNull()
  })
  it('radii differ by rounding only', () => {
    expect(arcLength(arc({ to: at(20.004, 0) }))).toBeCloseTo(10.002 * Math.PI, 6)
    expect(arcLength(arc({ to: at(20.02, 0) }))).toBeNull()
    // Of 1000 mm, 0.1 % would be 1 mm, but no more than 0.5 mm is forgiven.
    expect(arcLength(arc({ to: at(2000.4, 0), about: { i: 1000, j: 0 } }))).not.toBeNull()
    expect(arcLength(arc({ to: at(2000.6, 0), about: { i: 1000, j: 0 } }))).toBeNull()
  })
})

describe('with a radius', () => {
  it('above zero the small arc, below zero the rest of the circle', () => {
    const to = at(10, 10)
    expect(arcLength(arc({ to, about: { radius: 10 } }))).toBeCloseTo(5 * Math.PI, 9)
    expect(arcLength(arc({ to, about: { radius: -10 } }))).toBeCloseTo(15 * Math.PI, 9)
  })
  it('half a circle when the radius is half the way', () => {
    expect(arcLength(arc({ about: { radius: 10 } }))).toBeCloseTo(10 * Math.PI, 9)
    expect(arcLength(arc({ about: { radius: -10 } }))).toBeCloseTo(10 * Math.PI, 9)
  })
  it('half a circle when it is too short by rounding, none when by more', () => {
    expect(arcLength(arc({ about: { radius: 9.996 } }))).toBeCloseTo(10 * Math.PI, 9)
    expect(arcLength(arc({ about: { radius: 9.9 } }))).toBeNull()
  })
  it('none back to the start, and none of radius zero', () => {
    expect(arcLength(arc({ to: origin, about: { radius: 10 } }))).toBeNull()
    expect(arcLength(arc({ about: { radius: 0 } }))).toBeNull()
  })
})

describe('a broken contract is thrown', () => {
  const broken: readonly (readonly [string, Partial<Arc>])[] = [
    ['arc_not_finite', { to: at(Number.NaN, 0) }],
    ['arc_not_finite', { about: { radius: Number.POSITIVE_INFINITY } }],
    ['turns_not_whole', { extraTurns: 0.5 }],
    ['turns_not_whole', { extraTurns: -1 }],
  ]
  it.each(broken)('%s %j', (code, part) => {
    expect(() => arcLength(arc(part))).toThrow(expect.objectContaining({ code }))
    expect(() => arcLength(arc(part))).toThrow(DomainError)
  })
})

const coordinate = fc.integer({ min: -200_000, max: 200_000 }).map((um) => um / 1000)
const radius = fc.integer({ min: 100, max: 200_000 }).map((um) => um / 1000)
const angle = fc.integer({ min: 1, max: 359 }).map((degrees) => (degrees * Math.PI) / 180)

/** An arc drawn by its own angle, so that the answer is known. */
const drawn = fc
  .record({ x: coordinate, y: coordinate, radius, start: angle, sweep: angle })
  .map(({ x, y, radius: r, start, sweep }) => ({
    r,
    sweep,
    from: at(x + r * Math.cos(start), y + r * Math.sin(start)),
    to: at(x + r * Math.cos(start + sweep), y + r * Math.sin(start + sweep)),
    i: -r * Math.cos(start),
    j: -r * Math.sin(start),
  }))

test('the angle that drew it is found again, from the centre and from the radius', () => {
  fc.assert(
    fc.property(drawn, ({ r, sweep, from, to, i, j }) => {
      const length = r * sweep
      const byCentre = arcLength({ from, to, clockwise: false, about: { i, j } })
      expect(byCentre).toBeCloseTo(length, 6)
      const back = arcLength({ from, to, clockwise: true, about: { i, j } })
      expect(back).toBeCloseTo(r * (2 * Math.PI - sweep), 6)
      // Next to half a circle the radius form is ill-conditioned: left out.
      if (Math.abs(sweep - Math.PI) < 0.02) return
      const signed = sweep < Math.PI ? r : -r
      expect(arcLength({ from, to, clockwise: false, about: { radius: signed } })).toBeCloseTo(
        length,
        6,
      )
    }),
  )
})
