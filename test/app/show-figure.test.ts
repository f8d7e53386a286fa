import { expect, test } from 'vitest'
import {
  gramsAt,
  markOf,
  partsOf,
  showHeight,
  showLength,
  showMass,
  showReading,
  whole,
} from '../../src/app/strings/show-figure.ts'

test('masses in grams and in ounces, rounded to what is known', () => {
  expect(showMass({ value: 171.2, u: 4.4 }, 'g')).toBe(whole('171 ± 4 g'))
  expect(showMass({ value: 171.2, u: 4.4 }, 'oz')).toBe(whole('6.04 ± 0.16 oz'))
  expect(showMass({ value: 28.349523125, u: 0 }, 'oz')).toBe(whole('1 oz'))
})
test('lengths and heights', () => {
  expect(showLength({ value: 57_700, u: 2500 })).toBe(whole('57.7 ± 2.5 m'))
  expect(showHeight(14.16)).toBe(whole('14.2 mm'))
  expect(showHeight(72)).toBe(whole('72 mm'))
})
test('no end of a line tears a figure', () => {
  expect(showMass({ value: 171.2, u: 4.4 }, 'g')).toBe('171\u00a0±\u00a04\u00a0g')
})
test('what a scale showed is told in the unit that masses are shown in', () => {
  expect(showReading(422.04, 'g')).toBe(whole('422 g'))
  expect(showReading(422, 'oz')).toBe(whole('14.89 oz'))
})
test('marks of a scale and back', () => {
  expect(gramsAt(markOf(171, 'oz'), 'oz')).toBeCloseTo(171, 12)
  expect(markOf(171, 'g')).toBe(171)
})
test('value and the rest apart', () => {
  expect(partsOf('171 ± 4 g')).toEqual(['171', ' ± 4 g'])
  expect(partsOf('')).toEqual(['', ''])
})
