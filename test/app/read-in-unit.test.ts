import { expect, test } from 'vitest'
import { readLength, readMass } from '../../src/app/field/read-in-unit.ts'

// Where the decimal mark is a comma, a point may part thousands (CLDR: de, nl, es and others).

test.each(['1.000', '1.000 mm', '12.500 m', '1.750 mm'])('%s may be a thousand', (typed) => {
  expect(readLength(typed, 'mm', ',')).toMatchObject({ refusal: { code: 'number_ambiguous' } })
})

test.each([
  ['1000 mm', 1000],
  ['1,75 mm', 1.75],
  ['1.75 mm', 1.75],
  ['0.500 m', 500],
])('%s is one length only', (typed, length_mm) => {
  expect(readLength(typed, 'mm', ',')).toMatchObject({ value: { value: length_mm } })
})

test('where the decimal mark is a point it parts no thousands', () => {
  expect(readLength('1.000 mm', 'mm', '.')).toMatchObject({ value: { value: 1 } })
  expect(readMass('1.175', 'g', '.')).toMatchObject({ value: { value: 1.175 } })
})

test('of masses kilograms and pounds are not meant by the thousand', () => {
  for (const [typed, unit] of [
    ['1.175', 'g'],
    ['1.175 g', 'oz'],
    ['1.175', 'oz'],
  ] as const) {
    expect(readMass(typed, unit, ',')).toMatchObject({ refusal: { code: 'number_ambiguous' } })
  }
  expect(readMass('1.175 kg', 'g', ',')).toMatchObject({ value: { value: 1175 } })
})
