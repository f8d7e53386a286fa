import { z } from 'zod'
import { factId, moment } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What the figures of a reel rest on. */
export interface ReelWorkingJson {
  readonly weighings: readonly {
    readonly fact: string
    readonly at: string
    readonly reading_g: number
    readonly when_new: boolean
    readonly weight_on_net: number
    readonly off: number
  }[]
  readonly draws_since: number
  readonly length_since_mm: number
  readonly rests: readonly {
    readonly id: 'tare' | 'linear_density' | 'density' | 'diameter' | 'feed_factor'
    readonly value: MeasuredJson
    readonly on: string
    readonly guessed: boolean
  }[]
}

/** Schema of `ReelWorkingJson`. */
export const reelWorkingJson: z.ZodType<ReelWorkingJson> = z
  .strictObject({
    weighings: z
      .array(
        z.strictObject({
          fact: factId.describe('id of the fact'),
          at: moment.describe('when'),
          reading_g: z.number().nonnegative().describe('as shown'),
          when_new: z.boolean().describe('before anything was fed'),
          weight_on_net: z
            .number()
            .min(0)
            .max(1)
            .describe('share of the net’s variance that it takes away'),
          off: z.number().describe('how far off the rest it lies, in standard deviations'),
        }),
      )
      .describe('weighings of the reel, latest first'),
    draws_since: z.int().nonnegative().describe('prints after the latest weighing'),
    length_since_mm: z.number().nonnegative().describe('what they asked for'),
    rests: z
      .array(
        z.strictObject({
          id: z
            .enum(['tare', 'linear_density', 'density', 'diameter', 'feed_factor'])
            .describe('which quantity; density and diameter with a reel, feed with a check'),
          value: measuredJson.describe('in g, g/m, g/cm³, mm and 1'),
          on: z.string().describe('what it rests on'),
          guessed: z.boolean().describe('nobody measured it'),
        }),
      )
      .describe('what is known and what guessed'),
  })
  .meta({ id: 'reel_working' })
