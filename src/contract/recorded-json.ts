import { z } from 'zod'
import { type CatalogueRowJson, catalogueRowJson } from './catalogue-json.ts'
import { type ContradictedJson, contradictedJson } from './contradicted-json.ts'
import { type FactJson, factJson } from './fact-json.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What is believed of a reel. */
export interface ReelNowJson {
  readonly net_g: MeasuredJson
  readonly length_mm: MeasuredJson
  readonly tare_g: MeasuredJson
  readonly linear_density_g_per_m: MeasuredJson
}

/** What became of a reel. */
export interface ReelChangeJson {
  readonly reel: string
  readonly name: string
  readonly before: ReelNowJson | null
  readonly now: ReelNowJson | null
}

/** A weighing against what was expected. */
export interface SurpriseJson {
  readonly expected_g: MeasuredJson
  readonly off_g: number
  readonly off: number
  readonly surprising: boolean
  readonly causes: readonly {
    readonly code: string
    readonly weight: number
    readonly reel: string | null
    readonly mass_g: MeasuredJson | null
    readonly reading_g: number | null
    readonly message: string
  }[]
}

/** What a command that records writes with `--json`. */
export interface RecordedJson {
  readonly recorded: boolean
  readonly facts: readonly FactJson[]
  readonly rows: readonly CatalogueRowJson[]
  readonly reels: readonly ReelChangeJson[]
  readonly surprise: SurpriseJson | null
  readonly contradicted: readonly ContradictedJson[]
  readonly notes: readonly string[]
}

const reelNow = z
  .strictObject({
    net_g: measuredJson.describe('filament on it'),
    length_mm: measuredJson.describe('the same as a length'),
    tare_g: measuredJson.describe('its carrier'),
    linear_density_g_per_m: measuredJson.describe('grams per metre of its filament'),
  })
  .meta({ id: 'reel_now' })

const surprise = z
  .strictObject({
    expected_g: measuredJson.describe('what the scale should have shown'),
    off_g: z.number().describe('shown less expected'),
    off: z.number().describe('the same in standard deviations'),
    surprising: z.boolean().describe('beyond 3 standard deviations either way'),
    causes: z
      .array(
        z
          .strictObject({
            code: z.string().describe('stable; `chance` is: nothing is wrong'),
            weight: z.number().min(0).max(1).describe('of all causes considered'),
            reel: z.string().nullable().describe('the reel it may have been'),
            mass_g: measuredJson
              .nullable()
              .describe(
                'what is missing, or too much; of `extra_not_there` what was told to be beside it, of `unusual_carrier` the carrier',
              ),
            reading_g: z.number().nullable().describe('as it should have been typed'),
            message: z.string().describe('the cause in words'),
          })
          .meta({ id: 'cause' }),
      )
      .describe('what may explain it, likeliest first; none for an empty carrier'),
  })
  .meta({ id: 'surprise' })

/** Schema of `RecordedJson`. */
export const recordedJson: z.ZodType<RecordedJson> = z.strictObject({
  recorded: z.boolean().describe('false where a surprising weighing was not accepted'),
  facts: z.array(factJson).describe('facts written down, as they stand in the ledger'),
  rows: z.array(catalogueRowJson).describe('catalogue rows set up or changed'),
  reels: z
    .array(
      z
        .strictObject({
          reel: z.string().describe('its id'),
          name: z.string().describe('its make and colour'),
          before: reelNow.nullable().describe('what was believed of it; null for a new one'),
          now: reelNow.nullable().describe('what is believed of it now'),
        })
        .meta({ id: 'reel_change' }),
    )
    .describe('reels it is about'),
  surprise: surprise.nullable().describe('of a weighing: how far it is off'),
  contradicted: z
    .array(contradictedJson)
    .describe(
      'earlier weighings of the make that `weigh` brought to light as wrong; where it was not recorded, those without any one of which it would not surprise',
    ),
  notes: z.array(z.string()).describe('what a person should know beside'),
})

/** What a list of catalogue rows is with `--json`. */
export interface RowsJson {
  readonly rows: readonly CatalogueRowJson[]
}

/** Schema of `RowsJson`. */
export const rowsJson: z.ZodType<RowsJson> = z.strictObject({
  rows: z.array(catalogueRowJson).describe('as they stand in the ledger'),
})

/** What `priors list --json` writes. */
export interface PriorsJson {
  readonly priors: readonly {
    readonly key: string
    readonly unit: string
    readonly usual: MeasuredJson
    readonly own: MeasuredJson | null
    readonly learnt_factor: number | null
    readonly source: string
  }[]
}

/** Schema of `PriorsJson`. */
export const priorsJson: z.ZodType<PriorsJson> = z.strictObject({
  priors: z
    .array(
      z
        .strictObject({
          key: z.string().describe('its name'),
          unit: z.string().describe('of its value and u; `1` is a plain number'),
          usual: measuredJson.describe('where this shelf says nothing else'),
          own: measuredJson.nullable().describe('what this shelf says'),
          learnt_factor: z
            .number()
            .positive()
            .nullable()
            .describe(
              'a spread is reckoned with so many times as wide, as this shelf teaches; null for what is no spread',
            ),
          source: z.string().describe('of the usual value'),
        })
        .meta({ id: 'prior' }),
    )
    .describe('everything that is believed beforehand'),
})
