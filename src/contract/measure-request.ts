import { z } from 'zod'
import type { MeasuredFactJson } from './fact-json.ts'
import { words } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import {
  type SaidRequest,
  saidParts,
  type WeighingTellJson,
  weighingTellJson,
} from './said-request.ts'

/** What was measured of a reel's filament; at least one thing. */
export interface MeasureRequest
  extends SaidRequest,
    Pick<
      MeasuredFactJson,
      'calipers' | 'immersion' | 'density_g_per_cm3' | 'linear_density_g_per_m' | 'winding'
    > {
  readonly reel: string
  readonly accept?: boolean
  readonly cut?: { readonly length_mm: MeasuredJson; readonly weighing: WeighingTellJson }
}

const above = z.number().positive()

/** Keys of what calipers showed. */
export const calipersParts: {
  readonly [K in keyof Required<NonNullable<MeasureRequest['calipers']>>]: z.ZodType
} = {
  places_mm: z
    .array(z.tuple([above, above]))
    .min(1)
    .max(100),
  step_mm: z.exactOptional(above),
  error_mm: z.exactOptional(above),
}

/** Schema of what calipers showed. */
export const calipersJson: z.ZodExactOptional = z.exactOptional(z.strictObject(calipersParts))

/** Schema of a piece that was cut off and weighed. */
export const cutJson: z.ZodExactOptional = z.exactOptional(
  z.strictObject({ length_mm: measuredJson, weighing: weighingTellJson }),
)

/** Schema of the sizes of a winding. */
export const windingJson: z.ZodExactOptional = z.exactOptional(
  z.strictObject({ hub_mm: measuredJson, outer_mm: measuredJson, width_mm: measuredJson }),
)

/** Schema of `MeasureRequest`. */
export const measureRequest: z.ZodType<MeasureRequest> = z
  .strictObject({
    ...saidParts,
    reel: words.describe('id of the reel'),
    accept: z.exactOptional(z.boolean()).describe('take it though it is surprising'),
    calipers: calipersJson.describe('pairs of diameters, square to each other'),
    cut: cutJson.describe(
      'a piece cut off and weighed; it comes off the reel; where `u` of its length is 0 the 1 mm usual for a ruler is taken',
    ),
    immersion: z
      .exactOptional(
        z.strictObject({
          in_air_g: measuredJson,
          in_water_g: measuredJson,
          water_c: z.number().min(0).max(40),
        }),
      )
      .describe('a piece weighed in air and hung in water'),
    density_g_per_cm3: z
      .exactOptional(measuredJson)
      .describe('where `u` is 0 the spread usual for sheets is taken'),
    linear_density_g_per_m: z
      .exactOptional(measuredJson)
      .describe('where `u` is 0 the spread of a metre about its reel is taken'),
    winding: windingJson.describe(
      'diameters of hub and winding, width between the flanges; where `u` is 0 the 1 mm usual for a ruler is taken',
    ),
  })
  .meta({ id: 'measure_request' }) as z.ZodType<MeasureRequest>
