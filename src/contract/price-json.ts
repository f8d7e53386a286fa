import { z } from 'zod'

/** A price as it was paid. */
export interface PriceJson {
  /** Decimal, as `21.90`. */
  readonly amount: string
  /** ISO 4217. */
  readonly currency: string
}

/** Schema of `PriceJson`. */
export const priceJson: z.ZodType<PriceJson> = z.strictObject({
  amount: z
    .string()
    .regex(/^\d{1,9}(\.\d{1,4})?$/)
    .describe('decimal'),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/)
    .describe('ISO 4217'),
})
