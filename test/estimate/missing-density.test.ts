import { describe, expect, it } from 'vitest'
import { normalCdf, normalDensity } from '../../src/estimate/index.ts'
import { missingDensity } from '../../src/estimate/missing-density.ts'

/** By the rule of the midpoint over net and missing mass, in steps far finer than the spreads. */
const byHand = (
  gross: { value: number; u: number },
  net: { value: number; u: number },
  together: number,
  reading: number,
): number => {
  const slope = together / net.u ** 2
  const apart = Math.sqrt(gross.u ** 2 - slope * together)
  let density = 0
  let all = 0
  const step = net.u / 200
  for (let held = step / 2; held < net.value + 8 * net.u; held += step) {
    const weight = normalDensity((held - net.value) / net.u)
    const mean = gross.value + slope * (held - net.value)
    let given = 0
    for (let i = 0; i < 200; i++) {
      given += normalDensity((mean - ((i + 0.5) / 200) * held - reading) / apart) / apart / 200
    }
    density += weight * given
    all += weight
  }
  return density / all
}

/** Of a net of 50 g, known exactly. */
const fiftyLess = (less: number): number =>
  missingDensity({ value: 300, u: 2 }, { value: 50, u: 0 }, 0, 300 - less)

describe('the density of a reading from which a part of the net is missing', () => {
  it.each([
    // gross, net, correlation, missing
    [300, 3, 60, 20, 0.9, 30],
    [300, 20, 60, 20, 0.95, 75],
    [250, 8, 5, 8, 0.97, 12],
    [250, 8, -6, 8, 0.5, 5],
    [250, 4, 40, 12, -0.3, 0],
  ])('gross %i ± %i, net %i ± %i, correlation %f: %i g less', (value, u, held, doubt, r, less) => {
    const together = r * u * doubt
    const found = missingDensity({ value, u }, { value: held, u: doubt }, together, value - less)
    const exact = byHand({ value, u }, { value: held, u: doubt }, together, value - less)
    expect(Math.abs(found / exact - 1)).toBeLessThan(0.04)
  })

  it('of a net known exactly is even up to it, its ends blurred', () => {
    expect(fiftyLess(25)).toBeCloseTo(1 / 50, 12)
    expect(fiftyLess(50)).toBeCloseTo(1 / 100, 12)
    expect(fiftyLess(54)).toBeCloseTo((1 - normalCdf(2)) / 50, 12)
  })

  it('of an empty reel is that of nothing missing', () => {
    const shown = { value: 240, u: 2 }
    for (const net of [
      { value: 0, u: 0 },
      { value: -500, u: 5 },
    ]) {
      expect(missingDensity(shown, net, 0, 237)).toBeCloseTo(normalDensity(1.5) / 2, 12)
    }
  })
})
