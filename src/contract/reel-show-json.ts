import { z } from 'zod'
import { type AssumptionJson, assumptionJson } from './assumption-json.ts'
import { type ContradictedJson, contradictedJson } from './contradicted-json.ts'
import { moment } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import type { PriceJson } from './price-json.ts'
import { type ReelHeadJson, reelHeadJson } from './reel-head-json.ts'
import { type ReelWorkingJson, reelWorkingJson } from './reel-working-json.ts'
import { type ReelWoundJson, reelWoundJson } from './reel-wound-json.ts'
import { type ToldFactJson, toldFactJson } from './told-fact-json.ts'

/** What `reel show --json` writes. */
export interface ReelShowJson {
  readonly reel: ReelHeadJson
  readonly opened_at: string
  readonly at: string | null
  readonly known_at: string | null
  readonly net_g: MeasuredJson | null
  readonly length_mm: MeasuredJson | null
  readonly tare_g: MeasuredJson | null
  readonly linear_density_g_per_m: MeasuredJson | null
  readonly wound: ReelWoundJson
  readonly working: ReelWorkingJson | null
  readonly next: {
    readonly id: string
    readonly instruction: string
    readonly effort_min: number
    readonly net_u_g: number
    readonly length_u_mm: number
  } | null
  readonly assumed: readonly AssumptionJson[]
  readonly cost: {
    readonly paid: PriceJson
    readonly gone: MeasuredJson
    readonly left: MeasuredJson
  } | null
  readonly contradicted: ContradictedJson | null
  readonly notices: readonly { readonly code: string; readonly message: string }[]
  readonly facts: readonly ToldFactJson[]
}

/** Schema of `ReelShowJson`. */
export const reelShowJson: z.ZodType<ReelShowJson> = z.strictObject({
  reel: reelHeadJson.describe('which reel'),
  opened_at: moment.describe('when it came to the shelf'),
  at: moment.nullable().describe('the moment that net and length are of; null for now'),
  known_at: moment.nullable().describe('facts after this moment are left out; null for none'),
  net_g: measuredJson
    .nullable()
    .describe('filament on it; null where its facts can not be reckoned with'),
  length_mm: measuredJson.nullable().describe('the same as a length'),
  tare_g: measuredJson.nullable().describe('mass of its carrier'),
  linear_density_g_per_m: measuredJson.nullable().describe('mass of a metre of it'),
  wound: reelWoundJson.describe('what its drawing to scale needs'),
  working: reelWorkingJson.nullable().describe('what the figures rest on; null with `at`'),
  next: z
    .strictObject({
      id: z.string().describe('stable'),
      instruction: z.string().describe('what to do'),
      effort_min: z.number().nonnegative().describe('hands-on time, minutes'),
      net_u_g: z.number().nonnegative().describe('uncertainty of the net after it'),
      length_u_mm: z.number().nonnegative().describe('uncertainty of the length after it'),
    })
    .nullable()
    .describe('the measurement that narrows the length most; null where none does'),
  assumed: z
    .array(assumptionJson)
    .describe('what stands in for what nobody measured; none with `at`'),
  cost: z
    .strictObject({
      paid: z
        .strictObject({
          amount: z.string().describe('decimal'),
          currency: z.string().describe('ISO 4217'),
        })
        .describe('for the reel as it came'),
      gone: measuredJson.describe('of what is no longer on it, in that currency'),
      left: measuredJson.describe('of what is on it'),
    })
    .nullable()
    .describe('the price in proportion to the net; null where none was told'),
  contradicted: contradictedJson
    .nullable()
    .describe(
      'its weighing that everything else contradicts, the farthest off; null where none is',
    ),
  notices: z
    .array(z.strictObject({ code: z.string(), message: z.string() }))
    .describe('what to know before trusting the figures'),
  facts: z.array(toldFactJson).describe('its life, oldest first'),
})
