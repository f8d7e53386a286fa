import { describe, expect, it } from 'vitest'
import { waterDensity } from '../../src/filament/index.ts'
import { celsius, measured } from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const at = (t: number, u = 0): ReturnType<typeof waterDensity> =>
  waterDensity(measured(celsius(t), u))

describe('waterDensity', () => {
  it.each([1, 3.9, 10, 23, 39])('propagates the temperature at %d °C', (t) => {
    const numeric = firstOrder((x) => at(x).value, [measured(t, 0.5)])
    expect(at(t, 0.5).u).toBeCloseTo(numeric, 10)
  })
  it('is greatest just below 4 °C, where the temperature does not matter', () => {
    expect(at(3.983035, 1).u).toBe(0)
    expect(at(3.983035).value).toBeGreaterThan(at(3.9).value)
    expect(at(3.983035).value).toBeGreaterThan(at(4.1).value)
  })
  it.each([0, 40])('reaches to %d °C', (t) => expect(at(t).value).toBeGreaterThan(0.99))
  it.each([-0.001, 40.001, Number.NaN])('throws at %d °C', (t) => {
    expect(() => at(t)).toThrow(expect.objectContaining({ code: 'temperature_out_of_range' }))
  })
})
