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
