import { describe, expect, it } from 'vitest'
import {
  jointNormal,
  type LinearForm,
  marginal,
  meanOf,
  productAt,
  sumOf,
} from '../../src/estimate/index.ts'

// GUM (JCGM 100:2008) H.1, end gauge, Table H.1: l = ls + d − ls·(δα·θ + αs·δθ), nm and °C.
// Inputs and results read in MSLNZ/GTC examples/GUM_H1.py and docs/API/GUM_H1.rst, not in the GUM
// itself; figures with more digits recomputed from the inputs.
const inputs = {
  ls: { value: 50_000_623, u: 25 },
  d: { value: 215, u: 9.7 },
  alpha: { value: 11.5e-6, u: 1.2e-6 },
  deltaAlpha: { value: 0, u: 1e-6 / Math.sqrt(3) },
  theta: { value: -0.1, u: 0.41 },
  deltaTheta: { value: 0, u: 0.05 / Math.sqrt(3) },
}
const joint = jointNormal(inputs)
const at = (name: string): number => meanOf(joint, name)
const length: LinearForm = sumOf(
  { terms: { ls: 1, d: 1 } },
  productAt(['ls', 'deltaAlpha', 'theta'], -1, at),
  productAt(['ls', 'alpha', 'deltaTheta'], -1, at),
)
const contribution = (name: keyof typeof inputs): number =>
  Math.abs((length.terms[name] ?? 0) * inputs[name].u)

describe('GUM H.1, end gauge', () => {
  it('gives the published length and first-order uncertainty', () => {
    const { value, u } = marginal(joint, length)
    expect(value).toBeCloseTo(50_000_838, 6)
    expect(Math.round(u)).toBe(32)
    expect(u).toBeCloseTo(31.6639, 1)
  })

  it.each([
    ['ls', 25, 25],
    ['deltaTheta', 16.6, 16.599],
    ['d', 9.7, 9.7],
    ['deltaAlpha', 2.9, 2.8868],
    ['alpha', 0, 0],
    ['theta', 0, 0],
  ] as const)('has the published contribution of %s', (name, published, recomputed) => {
    expect(contribution(name)).toBeCloseTo(published, 1)
    expect(contribution(name)).toBeCloseTo(recomputed, 3)
  })
})
