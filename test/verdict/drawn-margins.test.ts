import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { measured, millimetres } from '../../src/units/index.ts'
import {
  chanceAt,
  DrawnMargins,
  leftOverAt,
  type MarginModel,
  marginAt,
  marginModel,
  type Printer,
} from '../../src/verdict/index.ts'
import { jointBelief, unitVector } from './joint-beliefs.ts'

// The readable twin of DrawnMargins is margin.ts: whatever the model and the draw, they say the same.

const quantity = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true })

/** Standard uncertainties of what a printer feeds, and leaves. */
interface Doubts {
  readonly feed: number
  readonly start: number
  readonly tail: number
}

const printer = ({ feed, start, tail }: Doubts): Printer => ({
  feedFactor: measured(1, feed),
  startAllowance_mm: measured(millimetres(80), start),
  tail_mm: measured(millimetres(500), tail),
})

/** Full reels, empty ones, and those of which nobody knows; printers that are known and are not. */
const plain: fc.Arbitrary<MarginModel> = fc
  .record({
    net: quantity(-20, 1200),
    // Known to the last digit, or no better than by the finest scale.
    netSpread: fc.oneof(fc.constant(0), quantity(1e-3, 150)),
    perMetre: quantity(1, 8),
    perMetreSpread: quantity(0, 0.5),
    feed: quantity(0, 0.05),
    start: quantity(0, 100),
    tail: quantity(0, 250),
    seed: fc.nat(),
  })
  .map(({ net, netSpread, perMetre, perMetreSpread, feed, start, tail, seed }) => {
    const random = new SeededRandom(seed)
    const parts = [
      { value: net, u: netSpread },
      { value: perMetre, u: perMetreSpread },
      { value: 1, u: feed },
      { value: 80, u: start },
    ] as const
    const belief = jointBelief(
      parts,
      parts.map(() => unitVector(random)),
    )
    return marginModel(belief, printer({ feed, start, tail }))
  })

/** The same, of some the spreads in doubt. */
const models = fc
  .tuple(plain, fc.array(fc.record({ weight: quantity(0.1, 1), of: plain }), { maxLength: 3 }))
  .map(
    ([model, standIns]): MarginModel =>
      standIns.length === 0 ? model : Object.assign({ standIns }, model),
  )

describe('DrawnMargins', () => {
  test('say of every draw what the models say', () => {
    fc.assert(
      fc.property(
        fc.array(models, { minLength: 1, maxLength: 4 }),
        quantity(0, 2e6),
        (all, draw) => {
          const margins = new DrawnMargins(all)
          all.forEach((model, reel) => {
            for (const [quick, slow] of [
              [margins.leftOverAt(reel, draw), leftOverAt(model, draw)],
              [margins.marginAt(reel, draw), marginAt(model, draw)],
            ] as const) {
              const size = 1e-9 * (1 + Math.abs(slow.value))
              expect(Math.abs(quick.value - slow.value)).toBeLessThan(size)
              // What is nearly certain is certain to the rounding of its variance.
              expect(Math.abs(quick.u ** 2 - slow.u ** 2)).toBeLessThan(1e-8 * (1 + slow.u ** 2))
            }
            // Without any doubt the chance leaps at a margin of nothing.
            const leaps = (model.standIns?.map(({ of }) => of) ?? [model]).some((one) => {
              const { value, u } = marginAt(one, draw)
              return u < 1e-3 && Math.abs(value) < 1e-3
            })
            if (leaps) return
            expect(Math.abs(margins.chanceAt(reel, draw) - chanceAt(model, draw))).toBeLessThan(
              1e-7,
            )
          })
        },
      ),
      { numRuns: 300 },
    )
  })

  test('tell the side of two limits as the chance does, and always of what is sure', () => {
    fc.assert(
      fc.property(models, quantity(0, 2e6), quantity(0.5, 1), (model, draw, high) => {
        const margins = new DrawnMargins([model])
        const chance = margins.chanceAt(0, draw)
        const side = margins.sideAt(0, draw, { low: 1 - high, high })
        if (side > 0) expect(chance).toBeGreaterThanOrEqual(high)
        if (side < 0) expect(chance).toBeLessThanOrEqual(1 - high)
      }),
      { numRuns: 1000 },
    )
    const parts = [
      { value: 300, u: 3 },
      { value: 3, u: 0.03 },
      { value: 1, u: 0 },
      { value: 80, u: 0 },
    ] as const
    const apart = parts.map((_, k) => parts.map((__, other) => Number(k === other)))
    const model = marginModel(jointBelief(parts, apart), printer({ feed: 0, start: 0, tail: 0 }))
    const margins = new DrawnMargins([model])
    const side = (draw: number): number => margins.sideAt(0, draw, { low: 0.05, high: 0.95 })
    expect([0, 50_000, 99_000, 150_000, 1e6].map(side)).toEqual([1, 1, 0, -1, -1])
  })

  test('are none of no models', () => {
    expect(() => new DrawnMargins([])).not.toThrow()
  })
})
