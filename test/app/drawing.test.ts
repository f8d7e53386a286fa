import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { usualCarrier } from '../../src/app/drawing/carrier-size.ts'
import { ringArc } from '../../src/app/drawing/ring-arc.ts'
import { edgeBand, windingEdge } from '../../src/app/drawing/winding-edge.ts'
import { windingDiameter } from '../../src/filament/index.ts'
import { axisTicks, silhouetteExtent, spreadLabels } from '../../src/picture/index.ts'
import type { Silhouette } from '../../src/print/index.ts'
import { grams, gramsPerCubicCentimetre, measured, millimetres } from '../../src/units/index.ts'

describe('ticks', () => {
  test.each([
    [250, [0, 50, 100, 150, 200, 250]],
    [72, [0, 20, 40, 60]],
    [0.3, [0, 0.1, 0.2, 0.3]],
    [0, [0]],
    [Number.NaN, [0]],
  ])('0 to %d', (top, at) => {
    expect(axisTicks(top).at).toEqual(at)
  })
  test('never stand above the top', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), (top) => {
        const { at, step } = axisTicks(top)
        expect(at.at(-1)).toBeLessThanOrEqual(top * (1 + 1e-6))
        expect(top / step).toBeLessThan(5.1)
      }),
    )
  })
})

describe('labels', () => {
  test('stay where they are when they do not touch', () => {
    expect(spreadLabels([30, 0, 12], 10)).toEqual([30, 0, 12])
  })
  test('move apart evenly about where they would stand', () => {
    expect(spreadLabels([10, 10, 10], 10)).toEqual([0, 10, 20])
    expect(spreadLabels([10, 10], 10, 10)).toEqual([10, 20])
    expect(spreadLabels([10, 10], 10, 0, 12)).toEqual([2, 12])
  })
  test('never stand closer than the gap, and keep their order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 12 }), (wishes) => {
        const order = wishes.map((_, k) => k).toSorted((a, b) => wishes[a]! - wishes[b]!)
        const places = order.map((k) => spreadLabels(wishes, 7, 0)[k]!)
        places.forEach((place, k) => {
          expect(place).toBeGreaterThanOrEqual(0)
          if (k > 0) expect(place - places[k - 1]!).toBeGreaterThanOrEqual(7 - 1e-9)
        })
      }),
    )
  })
})

describe('the winding', () => {
  test.each([0, 12, 171, 640])('of %d g ends where the filament layer says', (mass) => {
    const { hub_mm, width_mm } = usualCarrier
    const hub = {
      hub: measured(millimetres(hub_mm)),
      width: measured(millimetres(width_mm)),
    }
    const expected = windingDiameter(
      measured(grams(mass)),
      hub,
      measured(gramsPerCubicCentimetre(1.24)),
    )
    expect(windingEdge(mass, usualCarrier, 1.24)).toBeCloseTo(expected.value, 9)
  })
  test('lies between hub and flange whatever is said of it', () => {
    expect(windingEdge(-40, usualCarrier, 1.24)).toBe(80)
    expect(windingEdge(1e6, usualCarrier, 1.24)).toBe(200)
    expect(windingEdge(100, usualCarrier, 0)).toBe(windingEdge(100, usualCarrier, 1.24))
  })
  test('has a band as wide as its mass is unsure', () => {
    const { inner, likely, outer } = edgeBand(
      { net_g: { value: 171, u: 8 }, density_g_per_cm3: 1.24 },
      usualCarrier,
    )
    expect([inner, likely, outer]).toEqual(
      [163, 171, 179].map((mass) => windingEdge(mass, usualCarrier, 1.24)),
    )
  })
})

/** A silhouette from text, topmost row first; a digit is the cell's byte. */
const silhouette = (...text: readonly string[]): Silhouette => ({
  axis: 'x',
  columns: text[0]?.length ?? 0,
  rows: text.length,
  cell_mm: 2,
  row_mm: 0.5,
  left_mm: 40,
  bottom_mm: 0,
  bits: Uint8Array.from(text.toReversed().join('').replaceAll('.', '0'), Number),
})

test('a silhouette reaches as far as its cells', () => {
  expect(silhouetteExtent(silhouette('....', '.1..', '.11.'))).toEqual({
    left: 42,
    right: 46,
    top: 1,
  })
  expect(silhouetteExtent(silhouette('..', '..'))).toEqual({ left: 40, right: 40, top: 0 })
})

test('the rings are closed, open at a gap, and half', () => {
  expect(ringArc('enough', 10)).toMatch(/Z$/)
  expect(ringArc('short', 10)).toBe('M0 10A10 10 0 0 1 0 -10')
  expect(ringArc('close', 10)).toMatch(/^M9\.397 -3\.42A10 10 0 1 1 3\.42 -9\.397$/)
})
