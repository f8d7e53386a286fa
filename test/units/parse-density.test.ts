import { expect, test } from 'vitest'
import { parseDensity, parseLinearDensity } from '../../src/units/index.ts'

test.each([
  ['1.24', 1.24, 0],
  ['1.24 g/cm3', 1.24, 0],
  ['1.24 g / cm^3', 1.24, 0],
  ['1240 kg/m³', 1.24, 0],
  ['1,24 ± 0,01 g/cc', 1.24, 0.01],
  ['1240 ± 10 kg/m3', 1.24, 0.01],
])('%j is %d ± %d g/cm³', (text, value, u) => {
  expect(parseDensity(text)).toEqual({ ok: true, value: { value, u } })
})

test.each([
  ['0', 'not_positive'],
  ['-1.24', 'negative'],
  ['1.24 g/m', 'unit_not_taken'],
  ['1,240', 'number_ambiguous'],
])('density %j is refused as %s', (text, code) => {
  expect(parseDensity(text)).toMatchObject({ ok: false, refusal: { code } })
})

test.each([
  ['2.98 g/m', 2.98, 0],
  ['2.98', 2.98, 0],
  ['2.98 ± 0.02 g/m', 2.98, 0.02],
  ['2980 mg/m', 2.98, 0],
  ['2.98 kg/km', 2.98, 0],
])('%j is %d ± %d g/m', (text, value, u) => {
  expect(parseLinearDensity(text)).toEqual({ ok: true, value: { value, u } })
})

test('a linear density is not zero', () => {
  expect(parseLinearDensity('0 g/m')).toMatchObject({
    ok: false,
    refusal: { code: 'not_positive', at: 0 },
  })
})
