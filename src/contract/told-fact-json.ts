import { z } from 'zod'
import { factId, moment } from './ledger-parts.ts'

/** A fact in words. */
export interface ToldFactJson {
  readonly id: string
  readonly at: string
  readonly kind: string
  readonly what: string
  readonly voided: { readonly by: string; readonly reason: string } | null
}

/** Schema of `ToldFactJson`. */
export const toldFactJson: z.ZodType<ToldFactJson> = z.strictObject({
  id: factId.describe('of the fact'),
  at: moment.describe('when it happened'),
  kind: z.string().describe('as in the ledger format'),
  what: z.string().describe('in a sentence'),
  voided: z
    .strictObject({
      by: factId.describe('the fact that says so'),
      reason: z.string().describe('why'),
    })
    .nullable()
    .describe('where it does not hold'),
})
