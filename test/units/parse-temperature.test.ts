import { expect, test } from 'vitest'
import { parseTemperature } from '../../src/units/index.ts'

test.each([
  ['23', 23, 0],
  ['23 °C', 23, 0],
  ['-4,5 degC', -4.5, 0],
  ['73.4 °F', 23, 0],
  ['296.15 K', 23, 0],
  ['23 ± 0.5 °C', 23, 0.5],
  ['73.4 ± 1.8 F', 23, 1],
  ['296.15 ± 0.5 K', 23, 0.5],
])('%j is %d ± %d °C', (text, value, u) => {
  const outcome = parseTemperature(text)
  expect(outcome.ok && outcome.value.value).toBeCloseTo(value, 10)
  expect(outcome.ok && outcome.value.u).toBeCloseTo(u, 10)
})

test.each([
  ['-273.16', 'below_absolute_zero'],
  ['-1 K', 'below_absolute_zero'],
  ['23 g', 'unit_not_taken'],
  ['warm', 'number_missing'],
])('%j is refused as %s', (text, code) => {
  expect(parseTemperature(text)).toMatchObject({ ok: false, refusal: { code } })
})

test('absolute zero itself is taken', () => {
  expect(parseTemperature('-273.15')).toMatchObject({ ok: true })
})
