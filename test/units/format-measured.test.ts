import { expect, it, test } from 'vitest'
import { DomainError, formatMeasured } from '../../src/units/index.ts'

test.each([
  [171.6, 8.3, '172 ± 8 g'],
  [57.68, 2.46, '57.7 ± 2.5 g'],
  [1.2398, 0.0121, '1.240 ± 0.012 g'],
  [422, 0.29, '422.00 ± 0.29 g'],
  [1723, 118, '1720 ± 120 g'],
  [1723, 0.95, '1723.0 ± 1.0 g'],
  [1723, 2.94, '1723.0 ± 2.9 g'],
  [1723, 2.96, '1723 ± 3 g'],
  [1723, 9.96, '1723 ± 10 g'],
  [1723, 9600, '2000 ± 10000 g'],
  [-5.3, 8, '-5 ± 8 g'],
  [-0.3, 8, '0 ± 8 g'],
  [0, 0, '0 g'],
  [422, 0, '422 g'],
  [0.1 + 0.2, 0, '0.3 g'],
  [335.2836194, 0, '335.284 g'],
  [12_345_678, 0, '12345678 g'],
  [1.5e-7, 0, '0.00000015 g'],
])('%d ± %d is printed %j', (value, u, text) => {
  expect(formatMeasured({ value, u }, 'g')).toBe(text)
})

it.each([
  [Number.NaN, 0, 'not_finite'],
  [1, Number.POSITIVE_INFINITY, 'not_finite'],
  [1, -1, 'uncertainty_negative'],
])('does not print %d ± %d', (value, u, code) => {
  const print = (): string => formatMeasured({ value, u }, 'g')
  expect(print).toThrow(DomainError)
  expect(print).toThrow(expect.objectContaining({ code }))
})
