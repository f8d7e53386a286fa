import * as fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import {
  customaryPacking,
  lengthOfWinding,
  massOfWinding,
  nestedPacking,
  stackedPacking,
  type Winding,
  windingDiameter,
} from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  millimetres,
  type Outcome,
  squareMillimetres,
} from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const winding: Winding = {
  hub: measured(millimetres(80), 1),
  width: measured(millimetres(60), 0.5),
  outer: measured(millimetres(150), 1.5),
}
const density = measured(gramsPerCubicCentimetre(1.24), 0.015)
const area = measured(squareMillimetres(2.4), 0.05)
const inputs = [winding.hub, winding.width, winding.outer, customaryPacking] as const

const valueOf = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}
const volume = (h = 0, w = 0, d = 0, k = 0): number => (k * Math.PI * (d ** 2 - h ** 2) * w) / 4
const massPlain = (h = 0, w = 0, d = 0, k = 0, rho = 0): number => (volume(h, w, d, k) * rho) / 1000
const lengthPlain = (h = 0, w = 0, d = 0, k = 0, a = 1): number => volume(h, w, d, k) / a
const diameterPlain = (m = 0, h = 0, w = 1, k = 1, rho = 1): number =>
  Math.sqrt(h ** 2 + (4000 * m) / (Math.PI * w * k * rho))

describe('massOfWinding', () => {
  it('is packing × volume × density, first order', () => {
    const all: readonly Measured[] = [...inputs, density]
    const { value, u } = valueOf(massOfWinding(winding, density))
    expect(value).toBeCloseTo(massPlain(...all.map((input) => input.value)), 9)
    expect(u / firstOrder(massPlain, all)).toBeCloseTo(1, 6)
  })
  it('is nothing on a bare hub, and not surely so', () => {
    const bare = valueOf(massOfWinding({ ...winding, outer: winding.hub }, density))
    expect(bare.value).toBe(0)
    expect(bare.u).toBeGreaterThan(0)
  })
})

describe('lengthOfWinding', () => {
  it('is packing × volume over cross-section, first order', () => {
    const all: readonly Measured[] = [...inputs, area]
    const { value, u } = valueOf(lengthOfWinding(winding, area))
    expect(value).toBeCloseTo(lengthPlain(...all.map((input) => input.value)), 6)
    expect(u / firstOrder(lengthPlain, all)).toBeCloseTo(1, 6)
  })
})

describe('windingDiameter', () => {
  it('undoes massOfWinding', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 10, max: 100, noNaN: true }),
        (hub, depth, width) => {
          const reel: Winding = {
            hub: measured(millimetres(hub)),
            width: measured(millimetres(width)),
            outer: measured(millimetres(hub + 2 * depth)),
          }
          const mass = valueOf(massOfWinding(reel, density))
          expect(windingDiameter(mass, reel, density).value).toBeCloseTo(hub + 2 * depth, 8)
        },
      ),
    )
  })
  it('is first order', () => {
    const mass = measured(grams(600), 8)
    const all: readonly Measured[] = [mass, winding.hub, winding.width, customaryPacking, density]
    const { value, u } = windingDiameter(mass, winding, density)
    expect(value).toBeCloseTo(diameterPlain(...all.map((input) => input.value)), 9)
    expect(u / firstOrder(diameterPlain, all)).toBeCloseTo(1, 6)
  })
  it('is the hub for an empty reel', () => {
    expect(windingDiameter(measured(grams(0)), winding, density)).toEqual(winding.hub)
  })
})

test('the customary packing spans stacked to nested', () => {
  const { value, u } = customaryPacking
  expect(value - u).toBeCloseTo(stackedPacking, 12)
  expect(value + u).toBeCloseTo(nestedPacking, 12)
})

const changed = (change: Partial<Winding>): Winding => ({ ...winding, ...change })
const nil = measured(millimetres(0))

test.each([
  ['winding_below_hub', changed({ outer: measured(millimetres(79)) })],
  ['winding_below_hub', changed({ outer: measured(millimetres(Number.NaN)) })],
  ['hub_not_positive', changed({ hub: nil })],
  ['width_not_positive', changed({ width: nil })],
])('refuses %s', (code, wrong) => {
  const refusal = { ok: false, refusal: { code } }
  expect(massOfWinding(wrong, density)).toMatchObject(refusal)
  expect(lengthOfWinding(wrong, area)).toMatchObject(refusal)
})

const zero = measured(0)

test.each([
  ['density_not_positive', () => massOfWinding(winding, measured(gramsPerCubicCentimetre(0))).ok],
  ['packing_not_positive', () => massOfWinding(winding, density, zero).ok],
  ['area_not_positive', () => lengthOfWinding(winding, measured(squareMillimetres(0))).ok],
  ['mass_negative', () => windingDiameter(measured(grams(-1)), winding, density)],
  ['hub_not_positive', () => windingDiameter(measured(grams(1)), changed({ hub: nil }), density)],
  [
    'width_not_positive',
    () => windingDiameter(measured(grams(1)), changed({ width: nil }), density),
  ],
])('throws %s', (code, broken) => {
  expect(broken).toThrow(expect.objectContaining({ code }))
})
