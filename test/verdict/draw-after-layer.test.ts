import { expect, test } from 'vitest'
import { type DrawAlternative, drawAfterLayer } from '../../src/verdict/index.ts'

const draw: readonly DrawAlternative[] = [
  {
    weight: 2,
    label: 'one',
    peak_mm: 100,
    startMacro_mm: 5,
    layerEnd_mm: Float64Array.of(30, 70, 100),
    curve: {
      draw_mm: Float64Array.of(5, 30, 70, 100),
      height_mm: Float64Array.of(0.2, 0.2, 0.4, 0.6),
      layer: Int32Array.of(0, 1, 2, 3),
      byte: Float64Array.of(10, 20, 30, 40),
    },
  },
  { weight: 1, label: 'other', peak_mm: 50, layerEnd_mm: Float64Array.of(20, 40, 50) },
]

test('each reading draws what it had not drawn at the end of the layer', () => {
  const [one, other] = drawAfterLayer(draw, 1)
  expect(one).toMatchObject({ weight: 2, peak_mm: 70, startMacro_mm: 0, firstLayer: 2 })
  expect(Array.from(one?.layerEnd_mm ?? [])).toEqual([0, 40, 70])
  expect(Array.from(one?.curve?.draw_mm ?? [])).toEqual([0, 0, 40, 70])
  expect(other?.peak_mm).toBe(30)
})

test('before the first layer it is the whole print, after the last nothing', () => {
  expect(drawAfterLayer(draw, 0)).toEqual(draw)
  expect(drawAfterLayer(draw, 3).map(({ peak_mm }) => peak_mm)).toEqual([0, 0])
  expect(drawAfterLayer(draw, 9).map(({ peak_mm }) => peak_mm)).toEqual([0, 0])
  expect(drawAfterLayer([{ weight: 1, peak_mm: 40 }], 1)[0]?.peak_mm).toBe(0)
})
