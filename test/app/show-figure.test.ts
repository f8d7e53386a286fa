import { expect, test } from 'vitest'
import {
  gramsAt,
  markOf,
  partsOf,
  showHeight,
  showLength,
  showMass,
} from '../../src/app/strings/show-figure.ts'

test('masses in grams and in ounces, rounded to what is known', () => {
  expect(showMass({ value: 171.2, u: 4.4 }, 'g')).toBe('171 ± 4 g')
  expect(showMass({ value: 171.2, u: 4.4 }, 'oz')).toBe('6.04 ± 0.16 oz')
  expect(showMass({ value: 28.349523125, u: 0 }, 'oz')).toBe('1 oz')
})
test('lengths and heights', () => {
  expect(showLength({ value: 57_700, u: 2500 })).toBe('57.7 ± 2.5 m')
  expect(showHeight(14.16)).toBe('14.2 mm')
  expect(showHeight(72)).toBe('72 mm')
})
test('marks of a scale and back', () => {
  expect(gramsAt(markOf(171, 'oz'), 'oz')).toBeCloseTo(171, 12)
  expect(markOf(171, 'g')).toBe(171)
})
test('value and the rest apart', () => {
  expect(partsOf('171 ± 4 g')).toEqual(['171', ' ± 4 g'])
  expect(partsOf('')).toEqual(['', ''])
})
