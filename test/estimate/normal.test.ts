import { describe, expect, it } from 'vitest'
import {
  normalCdf,
  normalDensity,
  normalQuantile,
  normalUpperTail,
} from '../../src/estimate/index.ts'

// Computed with mpmath 1.3.0 at 50 digits: x, ncdf(x), ncdf(−x), npdf(x), for x exactly the double
// written here; the abscissae stand on both sides of every change of formula.
const table: readonly (readonly [number, number, number, number])[] = [
  [0, 0.5, 0.5, 0.3989422804014327],
  [0.1, 0.539827837277029, 0.460172162722971, 0.39695254747701175],
  [0.5, 0.6914624612740131, 0.3085375387259869, 0.35206532676429947],
  [0.6629, 0.7463026991317633, 0.2536973008682368, 0.3202489111520498],
  [0.663, 0.7463347229613835, 0.2536652770386165, 0.3202276809542207],
  [1, 0.8413447460685429, 0.15865525393145705, 0.24197072451914334],
  [1.5, 0.9331927987311419, 0.06680720126885807, 0.12951759566589172],
  [1.96, 0.9750021048517795, 0.024997895148220435, 0.05844094433345146],
  [2.5, 0.9937903346742238, 0.006209665325776135, 0.017528300493568537],
  [3, 0.9986501019683699, 0.0013498980316300946, 0.0044318484119380075],
  [4, 0.9999683287581669, 3.1671241833119924e-5, 0.00013383022576488534],
  [5, 0.9999997133484281, 2.866515718791939e-7, 1.4867195147342977e-6],
  [5.65, 0.9999999919776081, 8.022391850663497e-9, 4.6668867975942534e-8],
  [5.66, 0.9999999924313503, 7.568649751997714e-9, 4.410297778937309e-8],
  [6, 0.9999999990134123, 9.86587645037698e-10, 6.075882849823285e-9],
  [8, 0.9999999999999993, 6.220960574271784e-16, 5.052271083536892e-15],
  [12.3, 1, 4.5287069561587846e-35, 5.60665692630384e-34],
  [20, 1, 2.7536241186062337e-89, 5.520948362159764e-88],
  [30, 1, 4.906713927148187e-198, 1.4736461348785476e-196],
  [37, 1, 5.725571222524577e-300, 2.1200065515246056e-298],
]

// Computed with mpmath 1.3.0 at 50 digits: p and the root of ncdf(x) = p for p exactly the double.
const quantiles: readonly (readonly [number, number])[] = [
  [0.025, -1.9599639845400543],
  [0.05, -1.6448536269514726],
  [0.075, -1.439531470938456],
  [0.0751, -1.43882539275254],
  [0.25, -0.6744897501960817],
  [0.5, 0],
  [0.6, 0.2533471031357997],
  [0.75, 0.6744897501960817],
  [0.9, 1.2815515655446006],
  [0.95, 1.6448536269514722],
  [0.975, 1.9599639845400538],
  [0.99, 2.3263478740408408],
  [0.999, 3.090232306167813],
  [0.999999, 4.753424308817087],
  [1e-6, -4.753424308822899],
  [1e-11, -6.706023155495136],
  [1e-12, -7.034483825301132],
  [1e-20, -9.262340089798407],
  [1e-100, -21.273453560965326],
  [1e-300, -37.0470962993612],
]

const relative = (actual: number, expected: number): number =>
  expected === 0 ? Math.abs(actual) : Math.abs(actual / expected - 1)

describe('the standard normal distribution', () => {
  it.each(table)('at %f', (x, lower, upper, density) => {
    expect(relative(normalCdf(x), lower)).toBeLessThan(1e-13)
    expect(relative(normalCdf(-x), upper)).toBeLessThan(1e-13)
    expect(relative(normalUpperTail(x), upper)).toBeLessThan(1e-13)
    expect(relative(normalDensity(x), density)).toBeLessThan(1e-13)
    expect(normalDensity(-x)).toBe(normalDensity(x))
  })

  it('ends at 0 and 1', () => {
    expect(normalCdf(-Infinity)).toBe(0)
    expect(normalCdf(Infinity)).toBe(1)
    expect(normalDensity(Infinity)).toBe(0)
    expect(() => normalCdf(Number.NaN)).toThrow('NaN')
  })

  it('never falls', () => {
    let before = 0
    for (let x = -40; x <= 40; x += 0.0137) {
      const now = normalCdf(x)
      expect(now).toBeGreaterThanOrEqual(before)
      before = now
    }
  })
})

describe('the standard normal quantile', () => {
  it.each(quantiles)('at %d', (p, x) => {
    expect(Math.abs(normalQuantile(p) - x)).toBeLessThanOrEqual(1e-13 * Math.max(1, Math.abs(x)))
  })

  it('ends at infinity and refuses what is no chance', () => {
    expect(normalQuantile(0)).toBe(-Infinity)
    expect(normalQuantile(1)).toBe(Infinity)
    expect(() => normalQuantile(1.1)).toThrow('between 0 and 1')
    expect(() => normalQuantile(Number.NaN)).toThrow('between 0 and 1')
  })

  it('undoes the distribution', () => {
    for (let p = 1e-250; p < 0.5; p *= 3.7) {
      expect(relative(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-11)
    }
  })
})
