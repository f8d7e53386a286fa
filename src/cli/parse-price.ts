import type { PriceJson } from '../contract/index.ts'
import { usageFault } from './fault.ts'

const signs: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP' }
const form = /^([A-Za-z]{3}|[€£])?\s*(\d{1,9}(?:[.,]\d{1,4})?)\s*([A-Za-z]{3}|[€£])?$/

/** A price as `21.90 EUR`, `EUR 21,90` or `21.90 €`. @throws Fault `price_malformed` */
export const parsePrice = (typed: string, option: string): PriceJson => {
  const [, before, amount, after] = form.exec(typed.trim()) ?? []
  const currency = before ?? after
  if (amount !== undefined && currency !== undefined && (before ?? after) === (after ?? before)) {
    return {
      amount: amount.replace(',', '.'),
      currency: signs[currency] ?? currency.toUpperCase(),
    }
  }
  throw usageFault(
    'price_malformed',
    `${option}: "${typed}" is no price. Write an amount and its currency by three letters, as '21.90 EUR'.`,
    option,
  )
}
