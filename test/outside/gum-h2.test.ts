import { describe, expect, it } from 'vitest'
import {
  covarianceOf,
  type JointNormal,
  type LinearForm,
  marginal,
} from '../../src/estimate/index.ts'

// GUM (JCGM 100:2008) H.2, Tables H.2 to H.4: five readings of voltage, current and phase taken
// together. Data read in sandialabs/suncal test/test_GUMH2.csv, results in MSLNZ/GTC
// docs/API/GUM_H2.rst, not in the GUM itself.
const volt = [5.007, 4.994, 5.005, 4.99, 4.999]
const ampere = [19.663, 19.639, 19.64, 19.685, 19.678].map((milli) => milli / 1000)
const phase = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]

const meanOf = (column: readonly number[]): number =>
  column.reduce((sum, x) => sum + x, 0) / column.length
const covarianceOfMeans = (a: readonly number[], b: readonly number[]): number => {
  const [ma, mb] = [meanOf(a), meanOf(b)]
  const sum = a.reduce((total, x, i) => total + (x - ma) * (b[i]! - mb), 0)
  return sum / (a.length * (a.length - 1))
}

const columns = [volt, ampere, phase]
const joint: JointNormal = {
  names: ['V', 'I', 'phi'],
  mean: Float64Array.from(columns, meanOf),
  covariance: Float64Array.from(
    columns.flatMap((a) => columns.map((b) => covarianceOfMeans(a, b))),
  ),
}
const [V, I, phi] = [meanOf(volt), meanOf(ampere), meanOf(phase)]
const [cos, sin] = [Math.cos(phi), Math.sin(phi)]

/** First-order form with the value it has at the means. */
const formOf = (value: number, terms: Readonly<Record<'V' | 'I' | 'phi', number>>): LinearForm => ({
  terms,
  constant: value - terms.V * V - terms.I * I - terms.phi * phi,
})
const R = formOf((V / I) * cos, { V: cos / I, I: (-V / I ** 2) * cos, phi: (-V / I) * sin })
const X = formOf((V / I) * sin, { V: sin / I, I: (-V / I ** 2) * sin, phi: (V / I) * cos })
const Z = formOf(V / I, { V: 1 / I, I: -V / I ** 2, phi: 0 })

describe('GUM H.2, resistance and reactance: correlations kept', () => {
  it.each([
    ['R', R, 127.732, 0.071, 127.73217, 0.07107],
    ['X', X, 219.847, 0.295, 219.84651, 0.29558],
    ['Z', Z, 254.26, 0.236, 254.2597, 0.23634],
  ] as const)('%s', (_name, form, published, publishedU, recomputed, recomputedU) => {
    const { value, u } = marginal(joint, form)
    expect(Math.abs(value - published)).toBeLessThanOrEqual(0.00055)
    // The GUM rounds its inputs first: its u of X is 0.295 where full figures give 0.2956.
    expect(Math.abs(u - publishedU)).toBeLessThanOrEqual(0.001)
    expect(value).toBeCloseTo(recomputed, 5)
    expect(u).toBeCloseTo(recomputedU, 5)
  })

  it.each([
    ['R, X', R, X, -0.588, -0.58843],
    ['R, Z', R, Z, -0.485, -0.48526],
    ['X, Z', X, Z, 0.993, 0.99251],
  ] as const)('correlation of %s', (_name, a, b, published, recomputed) => {
    const r = covarianceOf(joint, a, b) / (marginal(joint, a).u * marginal(joint, b).u)
    expect(Math.abs(r - published)).toBeLessThanOrEqual(0.001)
    expect(r).toBeCloseTo(recomputed, 5)
  })

  it('would be wrong by a factor without them', () => {
    const diagonal = joint.covariance.map((c, i) => (i % 4 === 0 ? c : 0))
    const alone = marginal({ ...joint, covariance: diagonal }, R).u
    expect(alone / marginal(joint, R).u).toBeGreaterThan(2)
  })
})
