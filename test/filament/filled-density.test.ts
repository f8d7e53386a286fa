import { describe, expect, it, test } from 'vitest'
import { filledDensity } from '../../src/filament/index.ts'
import {
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  type Share,
  share,
} from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const pla = measured(gramsPerCubicCentimetre(1.24), 0.015)
const bronze = measured(gramsPerCubicCentimetre(8.8), 0.1)
const fibre = measured(gramsPerCubicCentimetre(1.78), 0.02)
const part = (value: number, u = 0): Measured<Share> => measured(share(value), u)

const plain = (m = 1, w1 = 0, d1 = 1, w2 = 0, d2 = 1): number =>
  1 / ((1 - w1 - w2) / m + w1 / d1 + w2 / d2)

describe('filledDensity', () => {
  it('is the matrix without filler, the filler without matrix', () => {
    const bare = filledDensity(pla, [])
    expect(bare.value).toBeCloseTo(1.24, 12)
    expect(bare.u).toBeCloseTo(0.015, 12)
    const pure = filledDensity(pla, [{ share: part(1), density: bronze }])
    expect(pure.value).toBeCloseTo(8.8, 12)
    expect(pure.u).toBeCloseTo(0.1, 12)
  })
  it('adds volumes: the same filler in two portions is one filler', () => {
    const once = filledDensity(pla, [{ share: part(0.3), density: fibre }])
    const twice = filledDensity(pla, [
      { share: part(0.1), density: fibre },
      { share: part(0.2), density: fibre },
    ])
    expect(twice.value).toBeCloseTo(once.value, 12)
  })
  it('propagates shares and densities, the matrix taking the rest', () => {
    const inputs = [pla, part(0.2, 0.03), bronze, part(0.1, 0.01), fibre] as const
    const { u } = filledDensity(pla, [
      { share: inputs[1], density: bronze },
      { share: inputs[3], density: fibre },
    ])
    expect(u / firstOrder(plain, inputs)).toBeCloseTo(1, 6)
  })
})

test.each([
  ['share_out_of_range', -0.1],
  ['share_out_of_range', 1.1],
  ['share_out_of_range', Number.NaN],
])('throws %s at %d', (code, w) => {
  expect(() => filledDensity(pla, [{ share: part(w), density: bronze }])).toThrow(
    expect.objectContaining({ code }),
  )
})

test('throws density_not_positive', () => {
  const none = measured(gramsPerCubicCentimetre(0))
  const code = 'density_not_positive'
  expect(() => filledDensity(none, [])).toThrow(expect.objectContaining({ code }))
  expect(() => filledDensity(pla, [{ share: part(0.1), density: none }])).toThrow(
    expect.objectContaining({ code }),
  )
})
