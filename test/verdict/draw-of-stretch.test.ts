import { expect, test } from 'vitest'
import { type DrawAlternative, drawOfStretch } from '../../src/verdict/index.ts'

const curve = {
  draw_mm: Float64Array.of(10, 40, 80, 100),
  height_mm: Float64Array.of(0.2, 0.2, 0.4, 0.6),
  layer: Int32Array.of(1, 1, 2, 3),
  byte: Float64Array.of(10, 20, 30, 40),
}
const reading = { weight: 1, peak_mm: 100, curve, layerEnd_mm: Float64Array.of(45, 80, 100) }
const draw: readonly DrawAlternative[] = [
  { ...reading, label: 'one' },
  { ...reading, label: 'other' },
]
/** It stands between the curve's second row and the third. */
const planned = { changes: [{ byte: 25, draw_mm: [50] }], readAs: 'one' }

test('the reading that knows the change is cut there, both parts are the whole', () => {
  const [first, second] = [1, 2].map((stretch) => drawOfStretch(draw, planned, 0, stretch)[0]!)
  expect([first!.peak_mm, second!.peak_mm]).toEqual([50, 50])
  // Layer 1 was done with what came before.
  expect([first!.firstLayer, second!.firstLayer]).toEqual([undefined, 2])
  expect(Array.from(second!.curve!.draw_mm)).toEqual([0, 0, 30, 50])
  expect(Array.from(second!.layerEnd_mm!)).toEqual([0, 30, 50])
})

test('of another reading a part is rather too long than too short', () => {
  const [first, second] = [1, 2].map((stretch) => drawOfStretch(draw, planned, 0, stretch)[1]!)
  // To the row behind the change, and from the row before it.
  expect([first!.peak_mm, second!.peak_mm]).toEqual([80, 60])
})

const at = (byte: number, stretch: number): number =>
  drawOfStretch(draw, { changes: [{ byte, draw_mm: [0] }], readAs: '' }, 0, stretch)[0]!.peak_mm

test('before the first row, and behind the last', () => {
  expect([at(5, 1), at(5, 2), at(50, 1), at(50, 2)]).toEqual([10, 100, 100, 0])
})
