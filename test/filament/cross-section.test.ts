import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  benchCaliper,
  type Caliper,
  crossSection,
  crossSectionOfPlaces,
  customaryScatter,
} from '../../src/filament/index.ts'
import { measured, millimetres, type Pair } from '../../src/units/index.ts'
import { firstOrder } from './first-order.ts'

const place = (first: number, second: number, u = 0): Pair => [
  measured(millimetres(first), u),
  measured(millimetres(second), u),
]
const perfect: Caliper = { ...benchCaliper, step: millimetres(0), error: millimetres(0) }
const even = { ...customaryScatter, relative: 0 }
const unknown = { ...customaryScatter, weight: 0 }

const oval = (a = 0, b = 0): number => (Math.PI / 4) * a * b
const toDisplay = (d: number): number => Math.round(d * 100) / 100

describe('crossSection', () => {
  it('propagates the diameter', () => {
    const d = measured(millimetres(1.75), 0.02)
    expect(crossSection(d).u).toBeCloseTo(
      firstOrder((x) => (Math.PI / 4) * x ** 2, [d]),
      9,
    )
  })
  it.each([0, -1.75, Number.NaN, Number.POSITIVE_INFINITY])('throws on %d mm', (d) => {
    expect(() => crossSection(measured(millimetres(d)))).toThrow(
      expect.objectContaining({ code: 'diameter_not_positive' }),
    )
  })
})

describe('crossSectionOfPlaces', () => {
  it('takes the mean of the areas, not the area of the mean', () => {
    const { value } = crossSectionOfPlaces([place(1.6, 1.6), place(1.9, 1.9)], perfect)
    expect(value).toBeCloseTo((Math.PI / 4) * ((1.6 ** 2 + 1.9 ** 2) / 2), 12)
    expect(value).toBeGreaterThan((Math.PI / 4) * 1.75 ** 2)
  })

  it('is the type A uncertainty of the mean when nothing else is off', () => {
    // Areas π/4·(2, 3, 4): s = π/4, u = s/√3.
    const places = [place(1, 2), place(1, 3), place(1, 4)]
    const { u } = crossSectionOfPlaces(places, perfect, unknown)
    expect(u).toBeCloseTo(Math.PI / 4 / Math.sqrt(3), 12)
  })

  it('does not take one place for the whole reel', () => {
    const { value, u } = crossSectionOfPlaces([place(1.75, 1.75)], perfect)
    expect(u / value).toBeCloseTo(2 * customaryScatter.relative, 12)
  })

  it('counts both readings of a place as one for the rounding', () => {
    const stepOnly: Caliper = { ...perfect, step: millimetres(0.1) }
    const { u } = crossSectionOfPlaces([place(1.75, 1.75)], stepOnly, even)
    const round = crossSection(measured(millimetres(1.75), 0.1 / Math.sqrt(12)))
    expect(u).toBeCloseTo(round.u, 12)
  })

  it('propagates the uncertainty typed with the readings', () => {
    const [first, second] = place(1.7, 1.8, 0.02)
    const { u } = crossSectionOfPlaces([[first, second]], perfect, even)
    expect(u).toBeCloseTo(firstOrder(oval, [first, second]), 8)
  })

  it('does not average out the error of the calipers', () => {
    const places = Array.from({ length: 10_000 }, () => place(1.75, 1.75))
    const { u } = crossSectionOfPlaces(places, benchCaliper)
    const floor = crossSection(measured(millimetres(1.75), benchCaliper.error)).u
    expect(u / floor).toBeGreaterThan(1)
    expect(u / floor).toBeLessThan(1.01)
  })

  it('gets surer with every even place', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 30 }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (n, d) => {
          const us = [n, n + 1].map(
            (count) =>
              crossSectionOfPlaces(
                Array.from({ length: count }, () => place(d, d)),
                benchCaliper,
              ).u,
          )
          expect(us[1]).toBeLessThan(us[0] ?? 0)
        },
      ),
    )
  })

  it('throws without places and on a diameter that is none', () => {
    expect(() => crossSectionOfPlaces([], benchCaliper)).toThrow(
      expect.objectContaining({ code: 'no_places' }),
    )
    expect(() => crossSectionOfPlaces([place(1.75, 0)], benchCaliper)).toThrow(
      expect.objectContaining({ code: 'diameter_not_positive' }),
    )
  })

  it('states an uncertainty that is true', () => {
    // Simulated reels: areas scatter along the filament, calipers are off by a common amount and
    // round. The mean square of the error over u must be near 1.
    let seed = 20_261_125
    const uniform = (): number => {
      seed = (seed * 48_271) % 2_147_483_647
      return seed / 2_147_483_647
    }
    const normal = (): number =>
      Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    const trials = 4000
    let squares = 0
    for (let trial = 0; trial < trials; trial += 1) {
      const truth = 1.75 + 0.02 * normal()
      const off = benchCaliper.error * normal()
      const places = Array.from({ length: 5 }, () => {
        const local = truth * (1 + customaryScatter.relative * normal())
        return place(toDisplay(local + off), toDisplay(local + off))
      })
      const { value, u } = crossSectionOfPlaces(places, benchCaliper)
      squares += ((value - (Math.PI / 4) * truth ** 2) / u) ** 2
    }
    expect(squares / trials).toBeGreaterThan(0.9)
    expect(squares / trials).toBeLessThan(1.15)
  })
})
