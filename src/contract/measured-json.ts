import { z } from 'zod'

/** A value with its standard uncertainty (k = 1); the unit stands in the key that holds it. */
export interface MeasuredJson {
  readonly value: number
  readonly u: number
}

/** Schema of `MeasuredJson`. */
export const measuredJson: z.ZodType<MeasuredJson> = z
  .strictObject({
    value: z.number().describe('best value'),
    u: z.number().nonnegative().describe('standard uncertainty, k = 1'),
  })
  .meta({ id: 'measured' })

/** Of what stood on a scale beside what was weighed: nothing weighs less than nothing. */
export const besideJson: z.ZodType<MeasuredJson> = measuredJson.refine(
  ({ value }) => value >= 0,
  'it can not weigh less than nothing',
)
