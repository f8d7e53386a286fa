import { describe, expect, it } from 'vitest'
import {
  normalCdf,
  normalDensity,
  normalQuantile,
  normalUpperTail,
} from '../../src/estimate/index.ts'

// Values of the kind in Abramowitz and Stegun, Table 26.1, which was not opened: computed at 30
// digits, and agreeing to their four or five digits with printed tables that were (math.com; Rosner,
// Table 3; Kreyszig, Table 3a).
const table = [
  [0, 0.5, 0.398942280401433, 0.5],
  [0.25, 0.5987063256829237, 0.386668116802849, 0.401293674317],
  [0.5, 0.6914624612740131, 0.352065326764299, 0.308537538726],
  [1, 0.8413447460685429, 0.241970724519143, 0.158655253931],
  [1.5, 0.9331927987311419, 0.129517595665892, 0.0668072012689],
  [1.96, 0.9750021048517795, 0.0584409443334515, 0.0249978951482],
  [2, 0.9772498680518208, 0.0539909665131881, 0.0227501319482],
  [2.5, 0.9937903346742238, 0.0175283004935685, 0.00620966532578],
  [3, 0.9986501019683699, 0.00443184841193801, 0.00134989803163],
  [4, 0.9999683287581669, 1.33830225764885e-4, 3.16712418331e-5],
  [5, 0.9999997133484281, 1.4867195147343e-6, 2.86651571879e-7],
  [6, 0.9999999990134123, 6.07588284982329e-9, 9.86587645038e-10],
] as const

const quantiles = [
  [0.6, 0.2533471031357998],
  [0.75, 0.6744897501960817],
  [0.8, 0.8416212335729142],
  [0.9, 1.2815515655446006],
  [0.95, 1.6448536269514726],
  [0.975, 1.9599639845400543],
  [0.98, 2.053748910631823],
  [0.99, 2.326347874040841],
  [0.995, 2.575829303548901],
  [0.999, 3.0902323061678136],
  [0.9995, 3.290526731491895],
  [0.9999, 3.7190164854556804],
  [1e-6, -4.753424308822899],
] as const

describe('tables of the normal distribution', () => {
  it.each(table)('at %f', (z, lower, density, upper) => {
    expect(Math.abs(normalCdf(z) / lower - 1)).toBeLessThan(1e-14)
    expect(Math.abs(normalDensity(z) / density - 1)).toBeLessThan(3e-14)
    expect(Math.abs(normalUpperTail(z) / upper - 1)).toBeLessThan(3e-12)
  })

  // The quantile is for p exactly; the nearest double to p moves it by up to 1e-12 near 1.
  it.each(quantiles)('quantile of %f', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(1e-12)
  })

  // Read in stockpyl tests/test_loss_functions.py.
  it.each([
    [-1.4, 1.436668142708465],
    [0.3, 0.26676124211721],
    [3.1, 0.0002672490952231408],
  ])('loss function at %f', (z, loss) => {
    expect(normalDensity(z) - z * normalUpperTail(z)).toBeCloseTo(loss, 14)
  })
})
