import { z } from 'zod'
import { type ContradictedJson, contradictedJson } from './contradicted-json.ts'
import { moment } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type ReelHeadJson, reelHeadJson } from './reel-head-json.ts'
import { type ReelWoundJson, reelWoundJson } from './reel-wound-json.ts'

/** One reel of the list. */
export interface ListedReelJson {
  readonly reel: ReelHeadJson
  readonly net_g: MeasuredJson | null
  readonly length_mm: MeasuredJson | null
  readonly weighed_at: string | null
  readonly wound: ReelWoundJson
  readonly contradicted: ContradictedJson | null
}

/** What `reel list --json` writes. */
export interface ReelListJson {
  readonly reels: readonly ListedReelJson[]
}

/** Schema of `ReelListJson`. */
export const reelListJson: z.ZodType<ReelListJson> = z.strictObject({
  reels: z
    .array(
      z
        .strictObject({
          reel: reelHeadJson.describe('which reel'),
          net_g: measuredJson
            .nullable()
            .describe('filament on it; null where its facts can not be reckoned with'),
          length_mm: measuredJson.nullable().describe('the same as a length'),
          weighed_at: moment.nullable().describe('when it stood on a scale last'),
          wound: reelWoundJson.describe('what its drawing to scale needs'),
          contradicted: contradictedJson
            .nullable()
            .describe(
              'its weighing that everything else contradicts, the farthest off; null where none is, and on a shelf of more than 20 000 facts, where none is looked for',
            ),
        })
        .meta({ id: 'listed_reel' }),
    )
    .describe('by make, the fullest first'),
})
