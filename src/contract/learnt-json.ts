import { z } from 'zod'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** How a printer keeps to the plan of its prints. */
export interface PaceJson {
  readonly timed_prints: number
  /** Before the file begins. */
  readonly preparation_s: MeasuredJson
  /** Over what was planned. */
  readonly moves: MeasuredJson
  /** Over what is usual. */
  readonly waits: MeasuredJson
}

/** What the ledger has learnt of what there is beside reels. */
export interface LearntJson {
  readonly makes: readonly {
    readonly id: string
    readonly tare_g: MeasuredJson
    readonly overfill: MeasuredJson
    readonly density_g_per_cm3: MeasuredJson
    readonly linear_density_g_per_m: MeasuredJson
    readonly reels: number
    readonly carriers_weighed: number
    readonly carrier_labels_g: readonly number[]
  }[]
  readonly printers: readonly {
    readonly id: string
    readonly feed_factor: MeasuredJson
    readonly start_allowance_mm: MeasuredJson
    readonly prints: number
    readonly pace: PaceJson
  }[]
  readonly scales: readonly {
    readonly id: string
    readonly gain: MeasuredJson
    readonly weighings: number
  }[]
}

const count = z.int().nonnegative()

/** Schema of `LearntJson`. */
export const learntJson: z.ZodType<LearntJson> = z.strictObject({
  makes: z
    .array(
      z.strictObject({
        id: z.string(),
        tare_g: measuredJson.describe('mean of its carriers'),
        overfill: measuredJson.describe('net mass at opening over that on the label'),
        density_g_per_cm3: measuredJson.describe('mean of its reels'),
        linear_density_g_per_m: measuredJson.describe('mean of its reels'),
        reels: count.describe('reels of it that came'),
        carriers_weighed: count.describe('empty carriers of it that were weighed'),
        carrier_labels_g: z
          .array(z.number().positive())
          .min(1)
          .describe(
            'the sizes of carrier that its reels came on, by the net mass on their label: its own first where reels came on it, or where it has none; the figures are of its own size',
          ),
      }),
    )
    .describe('by what is known now'),
  printers: z.array(
    z.strictObject({
      id: z.string(),
      feed_factor: measuredJson.describe('mean of its prints'),
      start_allowance_mm: measuredJson.describe('mean of its prints'),
      prints: count.describe('prints recorded of it'),
      pace: z
        .strictObject({
          timed_prints: count.describe('finished prints whose duration was told'),
          preparation_s: measuredJson.describe('before the file begins'),
          moves: measuredJson.describe('what moves take, over what was planned'),
          waits: measuredJson.describe(
            'what heating, homing and the like take, over what is usual',
          ),
        })
        .describe('how it keeps to the planned times'),
    }),
  ),
  scales: z.array(
    z.strictObject({
      id: z.string(),
      gain: measuredJson.describe('its error, a share of the load'),
      weighings: count.describe('weighings on it'),
    }),
  ),
})
