import { describe, expect, test } from 'vitest'
import { type HeightsOf, shareFed } from '../../src/ledger/index.ts'

// Five layers of 0.2 mm: 10 mm before the first, then 20, 30, 10, 0 and 30 mm.
const tool = {
  peak_mm: 100,
  startMacro_mm: 10,
  layerEnd_mm: Float64Array.of(30, 60, 70, 70, 100),
}
const layers: HeightsOf = {
  count: 5,
  spiral: false,
  step_mm: 0.2,
  height_mm: Float64Array.of(0.2, 0.4, 0.6, 0.8, 1),
}
const share = (stop: object, of: HeightsOf = layers) => {
  const fed = shareFed(tool, of, stop)
  return fed.ok ? fed.value : fed.refusal.code
}
const between = (from: number, to: number) => ({
  value: expect.closeTo((from + to) / 200, 12) as number,
  u: expect.closeTo((to - from) / 100 / Math.sqrt(12), 12) as number,
})

describe('a layer: anywhere between the end of the one before and its own', () => {
  test.each([
    [1, 10, 30],
    [2, 30, 60],
    [4, 70, 70],
    [5, 70, 100],
  ])('layer %i', (layer, from, to) => {
    expect(share({ layer })).toEqual(between(from, to))
  })
  test.each([0, 6, 1e9])('layer %i is beyond the print', (layer) => {
    expect(share({ layer })).toBe('beyond_print')
  })
})

describe('a height: as its layer', () => {
  test.each([
    [0, 1],
    [0.2, 1],
    [0.29, 1],
    [0.31, 2],
    [0.4, 2],
    [0.98, 5],
    [1, 5],
    [1.09, 5],
  ])('%f mm is in layer %i', (height_mm, layer) => {
    expect(share({ height_mm })).toEqual(share({ layer }))
  })
  test.each([1.11, -0.1, 1e9])('%f mm is beyond the print', (height_mm) => {
    expect(share({ height_mm })).toBe('beyond_print')
  })
  test('in a spiral a turn begins at its height', () => {
    const spiral = { ...layers, spiral: true }
    expect(share({ height_mm: 0.59 }, spiral)).toEqual(share({ layer: 2 }))
    expect(share({ height_mm: 0.6 }, spiral)).toEqual(share({ layer: 3 }))
    expect(share({ height_mm: 1.19 }, spiral)).toEqual(share({ layer: 5 }))
    expect(share({ height_mm: 1.21 }, spiral)).toBe('beyond_print')
  })
  describe('of objects printed one after another', () => {
    const twice: HeightsOf = { ...layers, height_mm: Float64Array.of(0.2, 0.4, 0.6, 0.2, 0.4) }
    test('where only one reaches so high, it is that one', () => {
      expect(share({ height_mm: 0.6 }, twice)).toEqual(share({ layer: 3 }))
    })
    test('where several do, a layer is asked for', () => {
      const fed = shareFed(tool, twice, { height_mm: 0.4 })
      expect(fed).toMatchObject({ ok: false, refusal: { code: 'height_ambiguous' } })
      expect(fed.ok ? '' : fed.refusal.message).toContain('in layers 2, 5')
    })
  })
})

describe('a share', () => {
  test('is taken as it is, with the usual doubt or the one given', () => {
    expect(share({ share: 0.4 })).toEqual({ value: 0.4, u: 0.01 })
    expect(shareFed(tool, layers, { share: 0.4 }, 0.05)).toMatchObject({ value: { u: 0.05 } })
  })
  test.each([1.01, -0.1, Number.NaN])('%f is none', (part) => {
    expect(share({ share: part })).toBe('share_above_one')
  })
})

test('nothing said, or nothing drawn, is refused', () => {
  expect(share({})).toBe('stop_missing')
  expect(shareFed({ ...tool, peak_mm: 0 }, layers, { layer: 1 })).toMatchObject({
    refusal: { code: 'draws_nothing' },
  })
})
