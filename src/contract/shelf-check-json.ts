import { z } from 'zod'
import {
  type CheckedPrintJson,
  checkedPrint,
  type PrinterJudgedJson,
  printerJudged,
} from './check-json.ts'
import { type PrintTimeJson, printTimeJson } from './clock-json.ts'
import { type FindingJson, findingJson } from './finding-json.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type ReelHeadJson, reelHeadJson } from './reel-head-json.ts'

/** One reel against one tool of the print. */
export interface RankedReelJson {
  readonly reel: ReelHeadJson
  readonly verdict: 'enough' | 'close' | 'short'
  readonly chance: number
  readonly net_g: MeasuredJson
  readonly left_over_g: MeasuredJson
  readonly margin_g: MeasuredJson
  readonly contradicting: readonly string[]
  readonly feeds_prints_on: readonly string[]
  readonly next: {
    readonly id: string
    readonly instruction: string
    readonly effort_min: number
    readonly settles: number
  } | null
}

/** The reels for one tool. */
export interface ToolRankingJson {
  readonly tool: number
  readonly needed_mm: number
  readonly enough: number
  readonly close: number
  readonly short: number
  readonly reels: readonly RankedReelJson[]
}

/** Two reels of one material and colour that do a print together, with one planned change. */
export interface TwoReelsJson {
  readonly first: ReelHeadJson
  readonly second: ReelHeadJson
  readonly after_layer: number
  readonly height_mm: number
}

/** A material that the print could be made of. */
export interface MaterialToTakeJson {
  /** Null of reels whose material nobody told. */
  readonly id: string | null
  readonly name: string | null
  readonly reels: number
}

/** What `check --json` writes where no reel is named: the whole shelf. */
export interface ShelfCheckJson {
  readonly verdict: 'enough' | 'close' | 'short'
  readonly chance: number
  readonly confidence: number
  readonly diameter_mm: number
  readonly other_diameter: number
  readonly materials: readonly MaterialToTakeJson[]
  readonly printer: PrinterJudgedJson | null
  readonly tools: readonly ToolRankingJson[]
  /** Null where one is enough, where no two do, of a file that may be cut short, and of one that is followed. */
  readonly two_reels: TwoReelsJson | null
  readonly print: CheckedPrintJson | null
  /** Null where it is not known. */
  readonly time: PrintTimeJson | null
  readonly findings: readonly FindingJson[]
}

const verdict = z.enum(['enough', 'close', 'short'])
const count = z.int().nonnegative()
const chance = z.number().min(0).max(1)

const rankedReel: z.ZodType<RankedReelJson> = z
  .strictObject({
    reel: reelHeadJson.describe('which reel'),
    verdict: verdict.describe('`enough`, `close` or `short`'),
    chance: chance.describe('chance that the reel lasts'),
    net_g: measuredJson.describe('filament on the reel'),
    left_over_g: measuredJson.describe('on the reel after the print; negative is what is missing'),
    margin_g: measuredJson.describe('net less needed less the tail that can not be printed'),
    contradicting: z
      .array(z.string())
      .describe(
        'what was observed of the reel and does not agree with the rest; while there is any the call is close, and the chance is worth nothing',
      ),
    feeds_prints_on: z
      .array(z.string())
      .describe(
        'names of the printers on which a print that was started feeds from the reel and is not recorded yet: what it takes still counts as being on the reel',
      ),
    next: z
      .strictObject({
        id: z.string().describe('stable'),
        instruction: z.string().describe('what to do'),
        effort_min: z.number().nonnegative().describe('hands-on time, minutes'),
        settles: chance.describe('chance that the call is settled then'),
      })
      .nullable()
      .describe('what settles a close call best; null where nothing does or none is needed'),
  })
  .meta({ id: 'ranked_reel' })

const toolRanking: z.ZodType<ToolRankingJson> = z
  .strictObject({
    tool: count.describe('number of the tool'),
    needed_mm: z.number().nonnegative().describe('asked by the file, in its likeliest reading'),
    enough: count.describe('how many reels are enough'),
    close: count.describe('how many are close'),
    short: count.describe('how many are short'),
    reels: z
      .array(rankedReel)
      .describe(
        'enough first, what leaves least over before; then close and short; of the short ones only the fullest unless `--all` is given. Of those that are enough, and of those that are close, one that feeds a print which runs stands behind the others',
      ),
  })
  .meta({ id: 'tool_ranking' })

const twoReels: z.ZodType<TwoReelsJson> = z
  .strictObject({
    first: reelHeadJson.describe('begins the print'),
    second: reelHeadJson.describe('does the rest of it'),
    after_layer: z.int().positive().describe('last layer of the first, from 1; then the change'),
    height_mm: z.number().describe('of that layer'),
  })
  .meta({ id: 'two_reels' })

const materialToTake: z.ZodType<MaterialToTakeJson> = z
  .strictObject({
    id: z.string().nullable().describe('of the material; null of reels whose material is not told'),
    name: z.string().nullable().describe('its name'),
    reels: count.describe('how many reels of it there are to be taken'),
  })
  .meta({ id: 'material_to_take' })

/** Schema of `ShelfCheckJson`. */
export const shelfCheckJson: z.ZodType<ShelfCheckJson> = z.strictObject({
  verdict: verdict.describe('`enough` when every tool can have a reel of its own that is enough'),
  chance: chance.describe('that the reels which would be taken first all last'),
  confidence: chance.describe('from which a call is made'),
  diameter_mm: z.number().positive().describe('nominal diameter of the reels judged'),
  other_diameter: count.describe('how many reels of another diameter were left out'),
  materials: z
    .array(materialToTake)
    .describe(
      'what the print could be made of, most reels first: of the reels in use that fit, whatever material is asked for',
    ),
  printer: printerJudged
    .nullable()
    .describe('whose prints have taught what it feeds; null where the ledger has none'),
  tools: z.array(toolRanking).describe('each tool by itself, ascending'),
  two_reels: twoReels
    .nullable()
    .describe(
      'two reels that do a print of one tool together, as sure as is asked, neither of which feeds a print that runs; null where one is enough, no two do, or the file may be cut short, and always of `watch`',
    ),
  print: checkedPrint.nullable().describe('the print; null when a length or mass stands in for it'),
  time: printTimeJson.nullable().describe('how long the print takes; null where it is not known'),
  findings: z.array(findingJson).describe('what a person should know of the file'),
})
