import { z } from 'zod'
import { factId, moment, rowId, words } from './ledger-parts.ts'
import { besideJson, type MeasuredJson } from './measured-json.ts'

/** What goes with every fact that is posted. */
export interface SaidRequest {
  /** Made by the client: the same one posted again is counted once. */
  readonly id?: string
  /** Now unless given. */
  readonly at?: string
  /** Id of a person. */
  readonly by?: string
  readonly note?: string
}

/** Keys of `SaidRequest`. */
export const saidParts: { readonly [K in keyof Required<SaidRequest>]: z.ZodExactOptional } = {
  id: z.exactOptional(
    factId.describe('made by the client: the same one posted again is counted once'),
  ),
  at: z.exactOptional(moment.describe('when it happened; now unless given')),
  by: z.exactOptional(rowId.describe('the person who says so')),
  note: z.exactOptional(words),
}

/** A weighing as it is told: a scale may be named, and figures be fewer than it shows. */
export interface WeighingTellJson {
  readonly reading_g: number
  readonly u_g?: number
  readonly last_place_g?: number
  readonly extra_g?: MeasuredJson
  readonly scale?: string
}

/** Keys of `WeighingTellJson` beside the scale. */
export const weighingParts: {
  readonly [K in keyof Required<Omit<WeighingTellJson, 'scale'>>]: z.ZodType
} = {
  reading_g: z.number().nonnegative().max(1e6).describe('as shown'),
  u_g: z.exactOptional(z.number().positive()).describe('its standard uncertainty, where stated'),
  last_place_g: z
    .exactOptional(z.number().positive())
    .describe('one unit in the last place told: coarser than the scale’s step, it was rounded'),
  extra_g: z.exactOptional(besideJson).describe('what else stood on the scale'),
}

/** Schema of `WeighingTellJson`. */
export const weighingTellJson: z.ZodType<WeighingTellJson> = z
  .strictObject({
    ...weighingParts,
    scale: z.exactOptional(words).describe('name or id; the only one unless given'),
  })
  .meta({ id: 'weighing_told' }) as z.ZodType<WeighingTellJson>
