import { expect, it } from 'vitest'
import { kitchenScale, readingVariance, weighingVariance } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

it('adds rounding, repeatability and gain in squares', () => {
  const scale = { ...kitchenScale, displayStep: grams(6), repeatability: grams(2), gain: 0.01 }
  expect(readingVariance(scale)).toBe(7)
  expect(weighingVariance(scale, grams(0))).toBe(7)
  expect(weighingVariance(scale, grams(300))).toBe(16)
})

it('knows the kitchen scale for a guess', () => {
  expect(kitchenScale.source.standing).toBe('common practice, no source')
  expect(Math.sqrt(weighingVariance(kitchenScale, grams(1250)))).toBeGreaterThan(1)
})
