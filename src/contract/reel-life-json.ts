import { z } from 'zod'
import { factId, moment } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What a reel held along its life, to draw it as a line. */
export interface ReelLifeJson {
  readonly reel: string
  readonly line: readonly { readonly at: string; readonly net_g: MeasuredJson }[]
  readonly marks: readonly {
    readonly fact: string
    readonly at: string
    readonly kind: string
    readonly net_g: MeasuredJson
  }[]
}

/** Schema of `ReelLifeJson`. */
export const reelLifeJson: z.ZodType<ReelLifeJson> = z
  .strictObject({
    reel: z.string().describe('id of the reel'),
    line: z
      .array(
        z.strictObject({
          at: moment.describe('when'),
          net_g: measuredJson.describe('filament on it, by all that is known today'),
        }),
      )
      .describe('oldest first; two points of one moment where something was taken off'),
    marks: z
      .array(
        z.strictObject({
          fact: factId.describe('id of the fact'),
          at: moment.describe('when'),
          kind: z.string().describe('as in the ledger format'),
          net_g: measuredJson.describe('filament on it after the fact'),
        }),
      )
      .describe('the facts that say something of its mass, oldest first'),
  })
  .meta({ id: 'reel_life' })
