import { z } from 'zod'
import { moment, printId, words } from './ledger-parts.ts'
import { calipersJson, cutJson, type MeasureRequest } from './measure-request.ts'
import { type WeighingTellJson, weighingTellJson } from './said-request.ts'

/** What is to be printed, and where. */
export interface PrintAskedRequest {
  readonly print?: string
  readonly length_mm?: number
  readonly printer?: string
  readonly firmware?: string
  readonly confidence?: number
  readonly cut_short?: boolean
  readonly after_layer?: number
}

/** Which reels of the shelf could do it? */
export interface CheckShelfRequest extends PrintAskedRequest {
  readonly material?: string
  readonly colour?: string
  readonly make?: string
  readonly place?: string
  readonly diameter_mm?: number
  readonly all?: boolean
  readonly most?: number
}

/** What is supposed to have been measured of a reel now: nothing is written down. */
export interface SupposedJson extends Pick<MeasureRequest, 'calipers' | 'cut'> {
  readonly weighing?: WeighingTellJson
  readonly empty_carrier?: WeighingTellJson
}

/** Will these reels do it? */
export interface CheckReelsRequest extends PrintAskedRequest {
  readonly start_at?: string
  readonly reels: readonly (SupposedJson & { readonly tool?: number; readonly reel: string })[]
}

/** Keys of `PrintAskedRequest`. */
export const printAsked: { readonly [K in keyof Required<PrintAskedRequest>]: z.ZodExactOptional } =
  {
    print: z.exactOptional(printId).describe('of a print that was kept'),
    length_mm: z.exactOptional(z.number().positive().max(1e9)).describe('in the place of a print'),
    printer: z
      .exactOptional(words)
      .describe(
        'name or id; unless given the only one in use, and of several the one that would take most',
      ),
    firmware: z.exactOptional(words).describe('firmware family; the printer’s unless given'),
    confidence: z.exactOptional(z.number().gt(0.5).lt(1)).describe('0.95 unless given'),
    after_layer: z
      .exactOptional(z.int().positive())
      .describe('only what comes after this layer, as for a reel that takes over there'),
    cut_short: z
      .exactOptional(z.boolean())
      .describe(
        'the reader found that the file may not be whole, or nothing that it draws: no reel is called enough then',
      ),
  }

/** When a print is started. */
export const startAt: z.ZodExactOptional<z.ZodType<string>> = z
  .exactOptional(moment)
  .describe('when it is started: its times are told as moments, too')

/** Schema of `CheckShelfRequest`. */
export const checkShelfRequest: z.ZodType<CheckShelfRequest> = z
  .strictObject({
    ...printAsked,
    material: z.exactOptional(words).describe('only reels of this material'),
    colour: z.exactOptional(words).describe('only reels with these words in their colour'),
    make: z.exactOptional(words).describe('only reels with these words in maker and name'),
    place: z.exactOptional(words).describe('only reels that stand there'),
    diameter_mm: z.exactOptional(z.number().positive()).describe('nominal'),
    all: z.exactOptional(z.boolean()).describe('with all reels that are short'),
    most: z
      .exactOptional(z.int().min(1).max(1e6))
      .describe('no more reels than this for each tool'),
  })
  .meta({ id: 'check_shelf_request' }) as z.ZodType<CheckShelfRequest>

/** Schema of `CheckReelsRequest`. */
export const checkReelsRequest: z.ZodType<CheckReelsRequest> = z
  .strictObject({
    ...printAsked,
    start_at: startAt,
    reels: z
      .array(
        z.strictObject({
          tool: z
            .exactOptional(z.int().nonnegative())
            .describe('the first tool without a reel, unless given'),
          reel: words.describe('id of the reel'),
          weighing: z
            .exactOptional(weighingTellJson)
            .describe('as it would stand on the scale now; nothing is written down'),
          empty_carrier: z
            .exactOptional(weighingTellJson)
            .describe(
              'as another carrier of its make would, weighed empty; nothing is written down',
            ),
          calipers: calipersJson.describe(
            'pairs of diameters, square to each other, as if they were measured; nothing is written down',
          ),
          cut: cutJson.describe(
            'a piece as if it were cut off and weighed; nothing is written down',
          ),
        }),
      )
      .min(1)
      .max(64),
  })
  .meta({ id: 'check_reels_request' }) as z.ZodType<CheckReelsRequest>
