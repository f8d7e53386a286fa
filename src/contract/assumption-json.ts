import { z } from 'zod'

/** What stands in for what nobody measured. */
export interface AssumptionJson {
  readonly id: string
  readonly what: string
  readonly value: number
  readonly u: number
  readonly unit: string
  readonly source: string
}

/** Schema of `AssumptionJson`. */
export const assumptionJson: z.ZodType<AssumptionJson> = z.strictObject({
  id: z.string().describe('stable'),
  what: z.string().describe('what it stands for'),
  value: z.number().describe('in `unit`'),
  u: z.number().nonnegative().describe('standard uncertainty, in `unit`'),
  unit: z.string().describe('`1` for a ratio'),
  source: z.string().describe('on whose word'),
})
