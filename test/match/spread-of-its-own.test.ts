import { expect, it } from 'vitest'
import { toldWork } from '../../src/estimate/index.ts'
import { spreadOfItsOwn } from '../../src/match/spread-of-its-own.ts'
import { measured } from '../../src/units/index.ts'

const printer = {
  feedFactor: measured(1, 0.01),
  startAllowance: measured(0),
  feedOfOneDraw: 0,
  startOfOneDraw: 0,
}
const workOf = (netVariance: number, common: number, linearVariance: number) =>
  toldWork(
    {
      joint: {
        names: ['net', 'linear'],
        mean: Float64Array.of(500, 3),
        covariance: Float64Array.of(netVariance, common, common, linearVariance),
      },
      net: { terms: { net: 1 } },
      linearDensity: { terms: { linear: 1 } },
    },
    { a: printer },
  )

it('is the whole spread where nothing hangs together', () => {
  expect(spreadOfItsOwn(workOf(81, 0, 0.04))).toBeCloseTo(9, 9)
})
it('is what the linear density leaves unexplained', () => {
  // 81 − 1.2² / 0.04 = 45
  expect(spreadOfItsOwn(workOf(81, 1.2, 0.04))).toBeCloseTo(Math.sqrt(45), 9)
})
it('is nothing where the net follows from the linear density, and takes what is known for known', () => {
  expect(spreadOfItsOwn(workOf(81, 1.8, 0.04))).toBeCloseTo(0, 5)
  expect(spreadOfItsOwn(workOf(81, 0, 0))).toBeCloseTo(9, 9)
})
