import { expect, it } from 'vitest'
import { usefulMass, usualUsefulMass } from '../../src/match/index.ts'

it('says the usual while few prints are known', () => {
  expect(usefulMass([10, 20, 30])).toBe(usualUsefulMass)
})
it('is the lower quartile of what prints took, in any order', () => {
  // Ranks 2.25 of 0 to 9.
  expect(usefulMass([100, 10, 90, 20, 80, 30, 70, 40, 60, 50])).toBeCloseTo(32.5)
})
it('does not count what took nothing', () => {
  expect(usefulMass([0, 0, 8, 8, 8, 8, 8, 8, 8, 8])).toBe(8)
})
