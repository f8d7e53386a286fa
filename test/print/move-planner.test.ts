import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { motionDefaults, motionRules } from '../../src/print/motion-profile.ts'
import { families } from './case.ts'
import { plannedTime, plannedTimes, planPath } from './planned.ts'
import { randomPath } from './random-path.ts'
import { type TwinMove, twinTimes } from './twin-motion.ts'

const lengthOf = ({ way, feed }: TwinMove): number => Math.hypot(...way) || Math.abs(feed)

const above = (most: number): fc.Arbitrary<number> =>
  fc.double({ min: most / 100, max: most, noNaN: true })
const axes = (most: number): fc.Arbitrary<[number, number, number, number]> =>
  fc.tuple(above(most), above(most), above(most), above(most))

describe.each(families)('%s', (family) => {
  const profile = motionDefaults[family]
  const rules = motionRules[family]

  test.each([0.05, 0.3, 2, 15])(
    'agrees with driving the path piece by piece, moves of %f mm',
    (size) => {
      for (const seed of [1, 2, 3]) {
        const path = randomPath(seed, 150, size)
        const want = twinTimes(path, profile, rules)
        const got = plannedTimes(path, { family })
        // To 0.01 % of the whole at every move; the pieces are some 1e-5 off.
        const near = 1e-4 * (want.at(-1) ?? 0)
        got.forEach((time, at) => {
          expect(Math.abs(time - want[at]!), `move ${at} of seed ${seed}`).toBeLessThan(near)
        })
      }
    },
  )

  test('random values of the printer: the same', () => {
    const values = fc.record({
      maxFeed: axes(400),
      maxAccel: axes(8000),
      printAccel: above(8000),
      travelAccel: above(8000),
      retractAccel: above(8000),
      jerk: axes(20),
      junctionDeviation: above(0.1),
      squareCorner: above(12),
      minimumCruise: fc.double({ min: 0, max: 0.9, noNaN: true }),
      feederCorner: above(5),
      corner: fc.constantFrom('jerk', 'junction-deviation', 'square-corner'),
    })
    fc.assert(
      fc.property(values, fc.integer(), (told, seed) => {
        const path = randomPath(seed, 40, 1)
        const want = twinTimes(path, { family, ...told }, rules).at(-1) ?? 0
        const got = plannedTime(path, { family, values: told })
        expect(Math.abs(got / want - 1)).toBeLessThan(1e-3)
      }),
      { numRuns: 200 },
    )
  })

  test('a small window gives what a large one gives, at every move', () => {
    for (const size of [0.02, 0.2, 3]) {
      const path = randomPath(7, 6000, size)
      const whole = plannedTimes(path, { family }, { window: 8192 })
      const small = plannedTimes(path, { family }, { window: 16 })
      small.forEach((time, at) => expect(time).toBeCloseTo(whole[at]!, 9))
    }
  })

  test('never faster than asked for', () => {
    for (const size of [0.1, 1, 10]) {
      const path = randomPath(11, 500, size)
      const bound = path.reduce((sum, move) => sum + lengthOf(move) / move.speed, 0)
      expect(plannedTime(path, { family })).toBeGreaterThan(bound)
    }
  })
})

test('the window grows only for what can not stop within it, and then no further than its limit', () => {
  const options = { family: 'community' } as const
  expect(planPath(randomPath(3, 200_000, 1), options).planner.room).toBe(512)
  const straight = Array.from({ length: 200_000 }, () => ({
    way: [0.001, 0, 0] as const,
    feed: 0,
    speed: 300,
  }))
  const slow = { ...options, values: { printAccel: 50, travelAccel: 50 } }
  const { planner } = planPath(straight, slow)
  expect(planner.room).toBe(32_768)
  // In pieces too short to look far enough ahead it is slower than it could be, never faster.
  const whole = plannedTime([{ way: [200, 0, 0], feed: 0, speed: 300 }], slow)
  expect(planner.time / whole).toBeGreaterThan(1)
  expect(planner.time / whole).toBeLessThan(1.5)
})

test('a ticket before a dwell and one behind it tell both times', () => {
  const { planner } = planPath([{ way: [10, 0, 0], feed: 0, speed: 100 }], { family: 'textfile' })
  const before = planner.ask()
  planner.rest(5)
  const behind = planner.ask()
  expect(planner.timeOf(behind) - planner.timeOf(before)).toBeCloseTo(5, 12)
})
