import { z } from 'zod'
import { type ClockJson } from './clock-json.ts'
import { factId, moment, printId, rowId, words } from './ledger-parts.ts'
import type { RowCommonJson } from './row-common-json.ts'

/** A reel that feeds a print, or fed it until another one took over. */
export interface RunningReelJson {
  readonly tool: number
  readonly reel: string
  /** It took over once this layer was done; from the start unless given. */
  readonly after_layer?: number
  /** It ran out in this print. */
  readonly ran_dry?: true
}

/** When something comes, s after the start; 9 of 10 lie between early and late. */
export type RunningClockJson = Pick<ClockJson, 'early_s' | 'likely_s' | 'late_s'>

/** A place in a print that runs. */
export interface RunningPlaceJson {
  readonly layer: number | null
  readonly height_mm: number | null
}

/** What a person was told of a tool when the print was started. */
export interface RunningToldJson {
  readonly tool: number
  readonly verdict: 'enough' | 'close' | 'short'
  /** Where the reel ends; absent where it lasts. */
  readonly run_dry?: {
    readonly early: RunningPlaceJson | null
    readonly likely: RunningPlaceJson | null
    readonly clock: RunningClockJson | null
  }
  /** The last layer end before which changing reels is still safe; absent where there is none. */
  readonly change_before?: {
    readonly layer: number
    readonly height_mm: number | null
    readonly clock: RunningClockJson | null
    /** Layer ends before it at which a change is as safe, ascending. */
    readonly earlier?: readonly {
      readonly layer: number
      readonly height_mm: number | null
      readonly clock: RunningClockJson
    }[]
  }
}

/** How a print that ran came to its end. */
export type RunningEndJson = 'finished' | 'failed' | 'never-ran'

/** A print that was started. It runs until it has ended, or a fact has its id. */
export interface RunningRowJson extends RowCommonJson {
  readonly kind: 'running'
  /** Id of the fact that it ends as: so it is counted once. */
  readonly id: string
  readonly print: string
  readonly printer: string
  /** To the minute. */
  readonly started_at: string
  /** When that was written down first. */
  readonly recorded_at: string
  /** As they fed it; of a tool whose reel was changed one after the other. */
  readonly reels: readonly RunningReelJson[]
  /** Firmware family that reads the file; the printer's unless given. */
  readonly firmware?: string
  /** How long it takes, as it was told at the start. */
  readonly takes?: RunningClockJson
  /** As it was told at the start. */
  readonly told?: readonly RunningToldJson[]
  /** The waiting print that it is a copy of. */
  readonly waiting?: string
  readonly ended?: RunningEndJson
}

const layer = z.int().positive()
/** No print takes longer, s: some three years. Moments are reckoned from it. */
export const longestPrint_s = 1e8
const seconds = z.number().nonnegative().max(longestPrint_s).nullable()

const clock: z.ZodType<RunningClockJson> = z
  .strictObject({
    early_s: seconds.describe('earlier with a chance of 5 %'),
    likely_s: seconds.describe('the likeliest'),
    late_s: seconds.describe('later with a chance of 5 %'),
  })
  .meta({ id: 'running_clock', description: 'seconds after the start of the print' })

const place = z.strictObject({
  layer: z.int().nonnegative().nullable().describe('layer in progress; 0 before the first'),
  height_mm: z.number().nullable().describe('height of the nozzle'),
})

/** Schema of `RunningRowJson['takes']`. */
export const runningTakes: z.ZodType<RunningClockJson> = clock.describe(
  'from the start to the end, as it was told at the start',
)

const toolTold = z
  .strictObject({
    tool: z.int().nonnegative().max(99),
    verdict: z.enum(['enough', 'close', 'short']),
    run_dry: z
      .exactOptional(
        z.strictObject({
          early: place.nullable().describe('it ends before this with a chance of 5 %'),
          likely: place.nullable().describe('as likely before as after'),
          clock: clock.nullable().describe('null where times were not known'),
        }),
      )
      .describe('where the reel ends; absent where it lasts'),
    change_before: z
      .exactOptional(
        z.strictObject({
          layer: layer.describe('the last layer that is still finished'),
          height_mm: z.number().nullable().describe('its height'),
          clock: clock.nullable().describe('when it ends; null where times were not known'),
          earlier: z
            .exactOptional(
              z.array(z.strictObject({ layer, height_mm: z.number().nullable(), clock })).max(40),
            )
            .describe('layer ends before it at which a change is as safe, ascending'),
        }),
      )
      .describe('last layer end before which changing reels is still safe'),
  })
  .meta({ id: 'running_told' })

/** Schema of `RunningRowJson['told']`. */
export const runningTold: z.ZodType<readonly RunningToldJson[]> = z
  .array(toolTold)
  .max(100)
  .describe('what a person was told of each tool at the start')

/** Schema of `RunningEndJson`. */
export const runningEnd: z.ZodType<RunningEndJson> = z.enum(['finished', 'failed', 'never-ran'])

const reel: z.ZodType<RunningReelJson> = z
  .strictObject({
    tool: z.int().nonnegative().max(99),
    reel: rowId,
    after_layer: z
      .exactOptional(layer)
      .describe('it took over once this layer was done; from the start unless given'),
    ran_dry: z.exactOptional(z.literal(true)).describe('it ran out in this print'),
  })
  .meta({ id: 'running_reel' })

/** Schema of `RunningRowJson`. */
export const runningRowJson: z.ZodType<RunningRowJson> & z.core.$ZodTypeDiscriminable = z
  .strictObject({
    kind: z.literal('running'),
    id: factId.describe('of the fact that it ends as'),
    changed_at: moment.describe('the row changed last holds'),
    note: z.exactOptional(words),
    print: printId.describe('a print that was kept'),
    printer: rowId,
    started_at: moment.describe('to the minute'),
    recorded_at: moment.describe('when that was written down first'),
    reels: z
      .array(reel)
      .min(1)
      .max(100)
      .describe('as they fed it; of a tool whose reel was changed one after the other'),
    firmware: z.exactOptional(words).describe('firmware family; the printer’s unless given'),
    takes: z.exactOptional(runningTakes),
    told: z.exactOptional(runningTold),
    waiting: z.exactOptional(rowId).describe('the waiting print that it is a copy of'),
    ended: z.exactOptional(runningEnd).describe('how; it runs unless given'),
  })
  .meta({
    id: 'running',
    description: 'A print that was started; it runs until it has ended, or a fact has its id.',
  })
