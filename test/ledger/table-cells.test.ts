import { expect, test } from 'vitest'
import { priceOfCell } from '../../src/ledger/table-cells.ts'

test.each([
  ['21.90', 'EUR', { amount: '21.90', currency: 'EUR' }],
  ['€ 21,90', '', { amount: '21.90', currency: 'EUR' }],
  ['21.90 CHF', 'EUR', { amount: '21.90', currency: 'CHF' }],
  ['$21', 'USD', { amount: '21', currency: 'USD' }],
  ['21 $', 'cad', { amount: '21', currency: 'CAD' }],
  ['US$21', 'EUR', { amount: '21', currency: 'USD' }],
  ['199 kr', 'SEK', { amount: '199', currency: 'SEK' }],
  ['85 zł', '', { amount: '85', currency: 'PLN' }],
])('%s where prices are in "%s"', (text, currency, price) => {
  expect(priceOfCell(text, currency)).toEqual({ ok: true, value: price })
})

test.each([
  ['$21', ''],
  ['$21', 'EUR'],
  ['21', ''],
])('%s where prices are in "%s" asks for the currency', (text, currency) => {
  expect(priceOfCell(text, currency)).toMatchObject({ refusal: { code: 'currency_missing' } })
})

test('what has two marks, or none that is known, is no price', () => {
  for (const text of ['$21 USD', '#21', 'dear']) {
    expect(priceOfCell(text, 'USD')).toMatchObject({ refusal: { code: 'price_unreadable' } })
  }
})
