import { expect, test } from 'vitest'
import { massInUnit } from '../../src/app/field/mass-in-unit.ts'
import { parseBounded } from '../../src/app/field/parse-bounded.ts'
import { toldWeighing } from '../../src/app/weighing/told-weighing.ts'

const ounce = 28.349523125

test.each([
  ['422', 'g', { reading_g: 422, last_place_g: 1 }],
  ['422,5', 'g', { reading_g: 422.5, last_place_g: 0.1 }],
  ['0.42 kg', 'g', { reading_g: 420, last_place_g: 10 }],
  ['14.9', 'oz', { reading_g: 14.9 * ounce, last_place_g: 0.1 * ounce }],
  ['1 lb 2', 'lb', { reading_g: 18 * ounce, last_place_g: ounce }],
  ['2 8', 'lb', { reading_g: 40 * ounce, last_place_g: ounce }],
  ['2 8,5', 'lb', { reading_g: 40.5 * ounce, last_place_g: 0.1 * ounce }],
  ['2', 'lb', { reading_g: 32 * ounce, last_place_g: 16 * ounce }],
  ['422 ± 2 g', 'g', { reading_g: 422, u_g: 2 }],
  // As a scale that types sends it.
  ['ST,GS,+00422.0  g', 'oz', { reading_g: 422, last_place_g: 0.1 }],
] as const)('%s in %s', (typed, unit, told) => {
  const outcome = toldWeighing(typed, unit, null)
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  expect(Object.keys(outcome.value)).toEqual(Object.keys(told))
  for (const [key, value] of Object.entries(told)) {
    expect(outcome.value[key as 'reading_g'], key).toBeCloseTo(value, 9)
  }
})

test('the scale is told where one is chosen; what is no mass is refused', () => {
  expect(toldWeighing('422', 'g', 'XGDS3')).toMatchObject({ value: { scale: 'XGDS3' } })
  expect(toldWeighing('four', 'g')).toMatchObject({ ok: false })
  expect(toldWeighing('-5', 'g')).toMatchObject({ ok: false })
  for (const [typed, unit] of [
    ['2 8', 'g'],
    ['2 8', 'oz'],
    ['2 18', 'lb'],
  ] as const) {
    expect(toldWeighing(typed, unit), `${typed} in ${unit}`).toMatchObject({
      refusal: { code: 'number_malformed', message: expect.stringContaining(`"${typed}"`) },
    })
  }
})

test('a unit is added only where none was typed', () => {
  expect(massInUnit('422', 'g')).toBe('422')
  expect(massInUnit('14,9', 'oz')).toBe('14,9 oz')
  expect(massInUnit('422 g', 'oz')).toBe('422 g')
  expect(massInUnit('1 lb 2 oz', 'lb')).toBe('1 lb 2 oz')
})

test('plain numbers take a comma, and keep to their bounds', () => {
  expect(parseBounded('21,90')).toEqual({ ok: true, value: 21.9 })
  expect(parseBounded('3', { whole: true, least: 1 })).toEqual({ ok: true, value: 3 })
  expect(parseBounded('2.5', { whole: true })).toMatchObject({
    refusal: { code: 'number_malformed' },
  })
  expect(parseBounded('0', { least: 1 })).toMatchObject({
    refusal: { code: 'number_out_of_bounds' },
  })
  expect(parseBounded('1e3')).toMatchObject({ ok: false })
  expect(parseBounded('21,90 EUR')).toMatchObject({ refusal: { code: 'number_malformed' } })
  expect(parseBounded('1,299')).toMatchObject({ refusal: { code: 'number_ambiguous' } })
})
