import { z } from 'zod'

/** What a drawing of a reel to scale needs beside its net. */
export interface ReelWoundJson {
  readonly label_g: number | null
  readonly density_g_per_cm3: number | null
  readonly measured: {
    readonly hub_mm: number
    readonly outer_mm: number
    readonly width_mm: number
  } | null
}

const length = z.number().positive()

/** Schema of `ReelWoundJson`. */
export const reelWoundJson: z.ZodType<ReelWoundJson> = z
  .strictObject({
    label_g: z
      .number()
      .positive()
      .nullable()
      .describe("net mass on its label, or on its make's; null where neither is told"),
    density_g_per_cm3: z
      .number()
      .positive()
      .nullable()
      .describe('the likeliest; null where its facts can not be reckoned with'),
    measured: z
      .strictObject({
        hub_mm: length.describe('diameter the first turn lies on'),
        outer_mm: length.describe('diameter of the winding when it was measured'),
        width_mm: length.describe('between the flanges'),
      })
      .nullable()
      .describe('its winding as it was measured last; null where it never was'),
  })
  .meta({ id: 'reel_wound' })
