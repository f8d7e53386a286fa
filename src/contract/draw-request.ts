import { z } from 'zod'
import type { StoppedAtJson } from './fact-json.ts'
import { moment, printId, words } from './ledger-parts.ts'
import { type SaidRequest, saidParts } from './said-request.ts'
import { stoppedAt } from './stopped-at.ts'

/** A print that was made, or a length that was fed. */
export interface DrawRequest extends SaidRequest {
  readonly print?: string
  readonly length_mm?: number
  readonly reels: readonly {
    readonly tool?: number
    readonly reel: string
    readonly ran_dry?: boolean
    readonly after_layer?: number
  }[]
  readonly printer?: string
  readonly firmware?: string
  readonly stopped_at?: StoppedAtJson
  readonly took_s?: number
  readonly started_at?: string | null
  readonly another?: boolean
  readonly accept?: boolean
  readonly waiting?: string | null
}

/** Schema of `DrawRequest`. */
export const drawRequest: z.ZodType<DrawRequest> = z
  .strictObject({
    ...saidParts,
    print: z.exactOptional(printId).describe('of a print that was kept'),
    length_mm: z.exactOptional(z.number().nonnegative()).describe('in the place of a print'),
    reels: z
      .array(
        z.strictObject({
          tool: z
            .exactOptional(z.int().nonnegative())
            .describe('the first tool without a reel, unless given'),
          reel: words.describe('id of the reel that fed it'),
          ran_dry: z
            .exactOptional(z.boolean())
            .describe(
              'it ran out in this print; wants `stopped_at`, or a reel that took over from it',
            ),
          after_layer: z
            .exactOptional(z.int().positive())
            .describe(
              'it took over once this layer was done, from the reel of the same tool before; from the start unless given',
            ),
        }),
      )
      .min(1)
      .max(64)
      .describe('which reel fed which tool'),
    printer: z.exactOptional(words).describe('name or id; the only one in use unless given'),
    firmware: z.exactOptional(words).describe('firmware family; the printer’s unless given'),
    stopped_at: z
      .exactOptional(stoppedAt)
      .describe('where it ended before its end; finished unless given'),
    took_s: z
      .exactOptional(z.number().positive())
      .describe('how long the finished print took from its start, s'),
    started_at: z
      .exactOptional(moment.nullable())
      .describe(
        'when the print was started, told in the place of `at`: a weighing of one of its reels since then is asked about. Of a print that was posted as started it is known; null: it ended after such a weighing',
      ),
    another: z
      .exactOptional(z.boolean())
      .describe(
        'of a print that was posted as started: it is another copy than the one that was recorded from its reels since, which is asked about',
      ),
    accept: z.exactOptional(z.boolean()).describe('a reel ran dry though that is surprising'),
    waiting: z
      .exactOptional(words.nullable())
      .describe(
        'waiting print of which one copy is done by it, null for none; the most urgent of the same print, where it finished, unless given',
      ),
  })
  .meta({ id: 'draw_request' }) as z.ZodType<DrawRequest>
