import { z } from 'zod'
import { words } from './ledger-parts.ts'
import { calipersParts, type MeasureRequest, windingJson } from './measure-request.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type WeighingTellJson, weighingParts } from './said-request.ts'

/** A weighing on the scale that is told with the reel. */
export type WeighedTellJson = Omit<WeighingTellJson, 'scale'>

/** What a person tells of a reel that is on no shelf, in any mixture. */
export interface ReelTellJson
  extends Pick<MeasureRequest, 'density_g_per_cm3' | 'linear_density_g_per_m' | 'winding'> {
  readonly gross?: WeighedTellJson
  readonly gross_when_new?: WeighedTellJson
  readonly scale?: {
    readonly class?: 'I' | 'II' | 'III' | 'IIII'
    readonly step_g?: number
    readonly repeatability_g?: number
    readonly gain?: number
  }
  readonly own_carrier?: WeighedTellJson
  readonly empty_carrier?: WeighedTellJson
  readonly carrier?: 'plastic' | 'cardboard' | 'refill-core' | 'metal'
  readonly label_net_g?: number
  readonly is_new?: boolean
  readonly material?: string
  readonly diameter_mm?: MeasuredJson
  readonly calipers?: NonNullable<MeasureRequest['calipers']> & { readonly u_mm?: number }
  readonly cut?: { readonly length_mm: MeasuredJson; readonly weighing: WeighedTellJson }
  readonly net_g?: MeasuredJson
  readonly length_mm?: MeasuredJson
}

const above = z.number().positive()

const weighed = z.strictObject(weighingParts).meta({
  id: 'weighed_told',
  description: 'A reading of the scale that is told with the reel.',
}) as z.ZodType<WeighedTellJson>

const scale = z.strictObject({
  class: z
    .exactOptional(z.enum(['I', 'II', 'III', 'IIII']))
    .describe('accuracy class of a verified scale; it needs `step_g` and nothing more'),
  step_g: z.exactOptional(z.number().nonnegative()).describe('smallest step of the display'),
  repeatability_g: z
    .exactOptional(z.number().nonnegative())
    .describe('beside the rounding; half the step unless given'),
  gain: z
    .exactOptional(z.number().nonnegative())
    .describe('uncertainty of its slope, a share of the load'),
})

const calipers = z.strictObject({
  ...calipersParts,
  u_mm: z.exactOptional(above).describe('standard uncertainty stated with the readings'),
})

/** Keys of `ReelTellJson`. */
export const reelTell: { readonly [K in keyof Required<ReelTellJson>]: z.ZodType } = {
  gross: z.exactOptional(weighed).describe('as it stands on the scale now'),
  gross_when_new: z.exactOptional(weighed).describe('before anything was fed'),
  scale: z.exactOptional(scale).describe('a kitchen scale unless given'),
  own_carrier: z.exactOptional(weighed).describe('its own carrier, weighed empty'),
  empty_carrier: z.exactOptional(weighed).describe('another carrier of its make, weighed empty'),
  carrier: z
    .exactOptional(z.enum(['plastic', 'cardboard', 'refill-core', 'metal']))
    .describe('only what the carrier is'),
  label_net_g: z.exactOptional(above).describe('net mass on its label'),
  is_new: z.exactOptional(z.boolean()).describe('nothing has been fed from it yet'),
  material: z.exactOptional(words).describe('of the built-in table'),
  density_g_per_cm3: z
    .exactOptional(measuredJson)
    .describe('from its sheet; where `u` is 0 the spread usual for sheets is taken'),
  diameter_mm: z
    .exactOptional(measuredJson)
    .describe(
      'nominal, 1.75 unless given: the same that the print was read with; where `u` is 0 the spread usual for a reel is taken',
    ),
  calipers: z.exactOptional(calipers).describe('pairs of diameters, square to each other'),
  cut: z
    .exactOptional(z.strictObject({ length_mm: measuredJson, weighing: weighed }))
    .describe(
      'a piece cut off and weighed; told finer than the scale shows, it was weighed on a small one; where `u` of its length is 0 the 1 mm usual for a ruler is taken',
    ),
  linear_density_g_per_m: z
    .exactOptional(measuredJson)
    .describe(
      'where it is known directly; where `u` is 0 the spread of a metre about its reel is taken',
    ),
  winding: windingJson.describe(
    'diameters of hub and winding, width between the flanges; where `u` is 0 the 1 mm usual for a ruler is taken',
  ),
  net_g: z
    .exactOptional(measuredJson)
    .describe(
      'filament on it, where somebody knows it; where `u` is 0 it is taken for whole grams: `u` 0.29',
    ),
  length_mm: z
    .exactOptional(measuredJson)
    .describe(
      'filament on it, where somebody knows it; where `u` is 0 it is taken for whole metres: `u` 289',
    ),
}
