import type { PriceJson } from '../../contract/index.ts'

/** A price as the API takes it, of what was typed. */
export const priceOf = (amount: number, currency: string): PriceJson => ({
  amount: String(Math.round(amount * 1e4) / 1e4),
  currency: currency.trim().toUpperCase(),
})
