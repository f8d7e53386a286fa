import { z } from 'zod'
import type { ColourJson, StoppedAtJson } from './fact-json.ts'
import { words } from './ledger-parts.ts'
import { besideJson, type MeasuredJson, measuredJson } from './measured-json.ts'
import { type PriceJson, priceJson } from './price-json.ts'
import { type SaidRequest, saidParts } from './said-request.ts'
import { stoppedAt } from './stopped-at.ts'

/** A fact that does not hold, and what holds in its place. */
export interface PutRightRequest extends SaidRequest {
  readonly fact: string
  readonly reason: string
  readonly mass_g?: MeasuredJson
  readonly last_place_g?: number
  readonly extra_g?: MeasuredJson
  readonly length_mm?: MeasuredJson
  readonly stopped_at?: StoppedAtJson
  readonly reel?: string
  readonly make?: string
  readonly label_net_g?: number
  readonly colour?: ColourJson
  readonly part_used?: boolean
  readonly price?: PriceJson
  readonly lot?: string
  readonly accept?: boolean
}

/** Schema of `PutRightRequest`. */
export const putRightRequest: z.ZodType<PutRightRequest> = z
  .strictObject({
    ...saidParts,
    fact: words.describe('id of the fact that does not hold'),
    reason: words.describe('why'),
    mass_g: z.exactOptional(measuredJson).describe('the right mass, where it has one'),
    last_place_g: z
      .exactOptional(z.number().positive())
      .describe(
        'one unit in the last place told of it: coarser than the scale’s step, it was rounded',
      ),
    extra_g: z
      .exactOptional(besideJson)
      .describe(
        'of a weighing: what else stood on the scale with it; nothing where the value is 0',
      ),
    length_mm: z.exactOptional(measuredJson).describe('the right length, where it has one'),
    stopped_at: z.exactOptional(stoppedAt).describe('of a print: where it ended before its end'),
    reel: z.exactOptional(words).describe('id of the reel it was'),
    make: z
      .exactOptional(words)
      .describe(
        'of an opening, a data sheet, or an empty carrier of no reel: name or id of the make it is',
      ),
    label_net_g: z
      .exactOptional(z.number().positive())
      .describe(
        'of an opening, or of an empty carrier of no reel: the right net mass on the label',
      ),
    colour: z
      .exactOptional(
        z.strictObject({
          name: words,
          srgb: z.exactOptional(z.string().regex(/^#[0-9a-f]{6}$/)),
        }),
      )
      .describe('of an opening: the right colour'),
    part_used: z
      .exactOptional(z.boolean())
      .describe('of an opening: whether some had been fed before'),
    price: z.exactOptional(priceJson).describe('of an opening: what was paid for the reel'),
    lot: z.exactOptional(words).describe('of an opening: the maker’s lot'),
    accept: z.exactOptional(z.boolean()).describe('take it though it is surprising'),
  })
  .meta({ id: 'put_right_request' }) as z.ZodType<PutRightRequest>
