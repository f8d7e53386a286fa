import { expect, test } from 'vitest'
import { reelWords } from '../../src/app/strings/reel-words.ts'

test.each([
  ['19.9', 'EUR', '19.90 EUR'],
  ['20', 'USD', '20.00 USD'],
  ['1990', 'JPY', '1990 JPY'],
  ['0.0125', 'EUR', '0.0125 EUR'],
])('%s in %s is %s', (amount, currency, shown) => {
  expect(reelWords.money(amount, currency)).toBe(shown)
})

const at = '2026-03-01T12:00:00.000Z'
const now = Date.parse('2026-03-11T12:00:00.000Z')
const weighing = { fact: 'F', at, reading_g: 422.004, when_new: false, weight_on_net: 1, off: 0 }
const working = { weighings: [weighing], draws_since: 0, length_since_mm: 0, rests: [] }
const fed = { draws_since: 1, length_since_mm: 5004 }
const plain = (said: string): string => said.replaceAll('\u00a0', ' ')

test.each([
  [working, 'g', 'weighed 2026-03-01, 10 days ago, at 422 g; nothing fed since'],
  [
    { ...working, ...fed },
    'oz',
    'weighed 2026-03-01, 10 days ago, at 14.89 oz; one print since, 5 m',
  ],
  [
    { ...working, ...fed, draws_since: 2, weighings: [] },
    'g',
    'never weighed; 2 prints since, 5 m',
  ],
  [{ ...working, weighings: [] }, 'g', 'never weighed'],
] as const)('what a net hangs on: %#', (known, unit, said) => {
  expect(plain(reelWords.weighedLast(known, unit, now))).toBe(said)
})

test('what the next measurement takes and brings, in the unit chosen', () => {
  const next = { id: 'x', instruction: '', effort_min: 3, net_u_g: 5.2, length_u_mm: 3100 }
  expect(plain(reelWords.nextBrings(next, 'g'))).toBe(
    '3 min; then the net is known to ± 5 g and the length to ± 3 m.',
  )
  expect(plain(reelWords.nextBrings(next, 'oz'))).toBe(
    '3 min; then the net is known to ± 0.18 oz and the length to ± 3 m.',
  )
})
