import { z } from 'zod'
import type { MakeRowJson } from './catalogue-json.ts'
import type { ColourJson } from './fact-json.ts'
import { words } from './ledger-parts.ts'
import { type PriceJson, priceJson } from './price-json.ts'
import {
  type SaidRequest,
  saidParts,
  type WeighingTellJson,
  weighingTellJson,
} from './said-request.ts'

/** Reels that arrive. */
export interface ReelRequest extends SaidRequest {
  readonly make: {
    readonly name: string
    readonly maker?: string
    readonly material?: string
    readonly nominal_diameter_mm?: number
    readonly carrier?: NonNullable<MakeRowJson['carrier']>
  }
  readonly label_net_g?: number
  readonly gross_when_new?: WeighingTellJson
  readonly gross?: WeighingTellJson
  readonly part_used?: boolean
  readonly price?: PriceJson
  readonly colour?: ColourJson
  readonly lot?: string
  readonly place?: string
  readonly count?: number
  readonly accept?: boolean
}

/** Schema of `ReelRequest`. */
export const reelRequest: z.ZodType<ReelRequest> = z
  .strictObject({
    ...saidParts,
    make: z
      .strictObject({
        name: words.describe('name or id of a make'),
        maker: z.exactOptional(words).describe('of a make that is new here'),
        material: z.exactOptional(words).describe('name of a material'),
        nominal_diameter_mm: z.exactOptional(z.number().positive()),
        carrier: z.exactOptional(z.enum(['plastic', 'cardboard', 'refill-core', 'metal'])),
      })
      .describe('its make; a new one where a maker is told'),
    label_net_g: z.exactOptional(z.number().positive()).describe('net mass on its label'),
    gross_when_new: z.exactOptional(weighingTellJson).describe('before anything was fed'),
    gross: z.exactOptional(weighingTellJson).describe('as it stands on the scale now'),
    part_used: z.exactOptional(z.boolean()).describe('some was fed before'),
    price: z.exactOptional(priceJson).describe('what was paid for it'),
    colour: z
      .exactOptional(
        z.strictObject({
          name: words,
          srgb: z.exactOptional(z.string().regex(/^#[0-9a-f]{6}$/)),
        }),
      )
      .describe('of the filament'),
    lot: z.exactOptional(words),
    place: z.exactOptional(words).describe('where it stands'),
    count: z.exactOptional(z.int().min(1).max(1000)).describe('how many alike; 1 unless given'),
    accept: z.exactOptional(z.boolean()).describe('write `gross` down though it is surprising'),
  })
  .meta({ id: 'reel_request' }) as z.ZodType<ReelRequest>
