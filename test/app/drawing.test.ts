import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  commonScale,
  discScale,
  type ReelDrawn,
  reelDrawn,
} from '../../src/app/drawing/carrier-size.ts'
import { ringArc } from '../../src/app/drawing/ring-arc.ts'
import { type EdgeBand, edgeBand, windingEdge } from '../../src/app/drawing/winding-edge.ts'
import { drawingWords } from '../../src/app/strings/drawing-words.ts'
import type { ReelWoundJson } from '../../src/contract/index.ts'
import { massOfWinding } from '../../src/filament/index.ts'
import { axisTicks, silhouetteExtent, spreadLabels } from '../../src/picture/index.ts'
import type { Silhouette } from '../../src/print/index.ts'
import { gramsPerCubicCentimetre, measured, millimetres } from '../../src/units/index.ts'

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
  const carrier = { hub_mm: 80, width_mm: 60, flange_mm: 200 }
  test.each([0, 12, 171, 640, 1000])('of %d g holds what the filament layer says', (mass) => {
    const outer = windingEdge(mass, carrier, 1.24)
    const held = massOfWinding(
      {
        hub: measured(millimetres(carrier.hub_mm)),
        width: measured(millimetres(carrier.width_mm)),
        outer: measured(millimetres(outer)),
      },
      measured(gramsPerCubicCentimetre(1.24)),
    )
    expect(held).toMatchObject({ ok: true, value: { value: expect.closeTo(mass, 6) } })
  })
  test('lies between hub and flange whatever is said of it', () => {
    expect(edgeBand({ value: -40, u: 10 }, carrier, 1.24)).toEqual({
      inner: 80,
      likely: 80,
      outer: 80,
    })
    expect(edgeBand({ value: 1e6, u: 0 }, carrier, 1.24).likely).toBe(200)
  })
  test('has a band as wide as its mass is unsure', () => {
    const { inner, likely, outer } = edgeBand({ value: 171, u: 8 }, carrier, 1.24)
    expect([inner, likely, outer]).toEqual(
      [163, 171, 179].map((mass) => windingEdge(mass, carrier, 1.24)),
    )
  })
})

const wound = (told: Partial<ReelWoundJson>): ReelWoundJson => ({
  label_g: 1000,
  density_g_per_cm3: 1.24,
  measured: null,
  ...told,
})
const sizes = [250, 500, 750, 1000, 2300, 3000, 5000, 10_000]
const full = (label_g: number): ReelDrawn => reelDrawn(wound({ label_g }), { value: label_g })
const edgeOf = ({ carrier, density_g_per_cm3: density }: ReelDrawn, net: number): EdgeBand =>
  edgeBand({ value: net, u: 0 }, carrier, density)
/** Depth of 200 g on a carrier of a label. */
const depth = (label_g: number): number => {
  const one = reelDrawn(wound({ label_g }), { value: 200 })
  return edgeOf(one, 200).likely - one.carrier.hub_mm
}
const said = (told: Partial<ReelWoundJson>, value: number): string =>
  drawingWords.carrier(reelDrawn(wound(told), { value }), 'g').replaceAll('\u00a0', ' ')

describe('a reel', () => {
  test('of a larger label is larger, and none stands over its flanges', () => {
    const all = sizes.map((label) => full(label).carrier)
    for (const size of ['flange_mm', 'hub_mm', 'width_mm', 'bore_mm', 'wall_mm'] as const) {
      expect(all.map((one) => one[size])).toEqual(
        all.map((one) => one[size]).toSorted((a, b) => a - b),
      )
      expect(new Set(all.map((one) => one[size])).size).toBe(sizes.length)
    }
    for (const label of sizes) {
      const { carrier } = full(label)
      // Filled, with a rim left, however much it holds.
      expect(edgeOf(full(label), label).likely / carrier.flange_mm).toBeCloseTo(0.816, 3)
      // A volume grows as the third power of what it is drawn with.
      expect((carrier.flange_mm / full(1000).carrier.flange_mm) ** 3).toBeCloseTo(label / 1000, 6)
    }
    expect(full(1000).carrier.flange_mm).toBeCloseTo(200, 9)
  })
  test('that holds the same on a larger carrier has a thinner winding', () => {
    expect(depth(3000)).toBeLessThan(depth(1000))
    expect(depth(1000)).toBeLessThan(depth(250))
  })
  test('of denser filament takes less room', () => {
    const light = reelDrawn(wound({ density_g_per_cm3: 1.04 }), { value: 1000 })
    const dense = reelDrawn(wound({ density_g_per_cm3: 3.9 }), { value: 1000 })
    expect(light.density_g_per_cm3).toBe(1.04)
    expect(dense.carrier.flange_mm).toBeLessThan(light.carrier.flange_mm)
    // On one carrier the winding itself is thinner.
    const on = (density: number): number =>
      edgeBand({ value: 400, u: 0 }, light.carrier, density).likely
    expect(on(3.9)).toBeLessThan(on(1.04))
  })
  test('has hub and width as they were measured, and room for the winding that was', () => {
    const { carrier, carrierFrom } = reelDrawn(
      wound({ measured: { hub_mm: 104, width_mm: 47, outer_mm: 191 } }),
      { value: 700 },
    )
    expect(carrierFrom).toBe('measured')
    expect(carrier).toMatchObject({ hub_mm: 104, width_mm: 47 })
    expect(carrier.flange_mm).toBeGreaterThan(191)
    expect(carrier.bore_mm).toBeLessThan(104)
  })
  test('of which no label is told is drawn as what it holds, or as the usual', () => {
    const none = wound({ label_g: null })
    expect(reelDrawn(none, { value: 2600 })).toMatchObject({ carrierFrom: 'net', mass_g: 2600 })
    expect(reelDrawn(none, { value: 2600 }).carrier).toEqual(full(2600).carrier)
    expect(reelDrawn(none, { value: 300 })).toMatchObject({ carrierFrom: 'usual', mass_g: 1000 })
    expect(reelDrawn(none, null).carrier).toEqual(full(1000).carrier)
    // As the browser may have kept it from before.
    expect(reelDrawn(undefined, { value: 300 })).toEqual(reelDrawn(none, { value: 300 }))
  })
  test('says what its carrier is taken from', () => {
    expect(said({ label_g: 3000 }, 2000)).toBe(
      'To scale. Carrier guessed from its label, 3000 g: 288 mm across, 87 mm wide.',
    )
    expect(said({ label_g: null }, 200)).toMatch(/guessed as for 1000 g, as no label was told/)
    expect(said({ label_g: null }, 2000)).toMatch(/guessed from what is on it/)
    expect(said({ measured: { hub_mm: 104, width_mm: 47, outer_mm: 160 } }, 200)).toMatch(
      /^To scale\. Hub and width of the carrier as measured, its flanges guessed: .*, 47 mm wide\.$/,
    )
  })
  test('stands on one scale with the others, and fits a narrow phone', () => {
    const carriers = [250, 1000, 3000].map((label) => full(label).carrier)
    // A usual disc is as large beside a 3 kg one as alone.
    expect(discScale(carriers)).toBe(discScale([]))
    const px = sizes.map((label) => full(label).carrier.flange_mm * discScale(carriers))
    expect(px[0]).toBeLessThan(60)
    expect(px[5]).toBeGreaterThan(125)
    const vast = full(50_000).carrier
    expect(vast.flange_mm * discScale([...carriers, vast])).toBeLessThanOrEqual(216)
    expect(full(3000).carrier.flange_mm * commonScale(280, [full(3000).carrier])).toBeCloseTo(
      288.4 * 1.4,
      0,
    )
    expect(vast.flange_mm * commonScale(280, [vast])).toBeCloseTo(420, 6)
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
