import { expect, it } from 'vitest'
import { customaryPacking, nestedPacking, stackedPacking } from '../../src/filament/index.ts'

// Read second-hand in several places, and recomputed.
it('stacked and nested', () => {
  expect(stackedPacking).toBeCloseTo(0.785398163397, 12)
  expect(nestedPacking).toBeCloseTo(0.90689968212, 11)
  expect(nestedPacking / stackedPacking).toBeCloseTo(1.154700538379, 12)
})

// NEMA WC 26 cable-reel formula; its form was opened garbled and completed from memory, so this is
// not a check against the standard. Example recomputed: flange 40 in, drum 20 in, traverse 20 in,
// cable 1 in, clearance 1 in: 9 layers of 19 turns, 1278.1 ft.
it('cable-reel practice comes out at stacked, the low end of the customary packing', () => {
  const [layers, turns, drum, traverse, cable] = [9, 19, 20, 20, 1]
  const pitch = 0.95 * cable
  const inches = Math.PI * (drum + layers * pitch) * layers * turns
  expect(inches / 12).toBeCloseTo(1278.1, 1)
  const outer = drum + 2 * layers * pitch
  const winding = (Math.PI / 4) * (outer ** 2 - drum ** 2) * traverse
  const implied = (inches * (Math.PI / 4) * cable ** 2) / winding
  expect(implied).toBeCloseTo(stackedPacking, 9)
  expect(Math.abs(implied - customaryPacking.value)).toBeLessThanOrEqual(customaryPacking.u + 1e-9)
})
