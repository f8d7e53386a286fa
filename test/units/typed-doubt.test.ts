import { expect, test } from 'vitest'
import {
  isDoubtStated,
  lastPlaceOf,
  parseLength,
  parseMass,
  withTypedDoubt,
} from '../../src/units/index.ts'

test.each([
  ['422 g', 1],
  ['422,5 g', 0.1],
  ['0.4 kg', 100],
  ['4e2 g', 100],
  ['2 lb 3 oz', 28.349523125],
  ['heavy', 0],
] as const)('one unit in the last place of %s', (typed, place) => {
  expect(lastPlaceOf(typed, parseMass)).toBeCloseTo(place, 9)
})

test('figures leave a doubt of their last place over √12, unless one is stated', () => {
  const told = withTypedDoubt('1000 mm', parseLength)
  expect(told).toMatchObject({ ok: true, value: { value: 1000 } })
  expect(told.ok && told.value.u).toBeCloseTo(1 / Math.sqrt(12), 12)
  expect(withTypedDoubt('1000 ± 3 mm', parseLength)).toMatchObject({ value: { u: 3 } })
  expect(withTypedDoubt('1000 ± 0 mm', parseLength)).toMatchObject({ value: { u: 0 } })
  expect(withTypedDoubt('long', parseLength)).toMatchObject({ ok: false })
  expect(['422 ± 2 g', '422 +/- 2 g', '422 +-2'].every(isDoubtStated)).toBe(true)
  expect(isDoubtStated('422 g')).toBe(false)
})
