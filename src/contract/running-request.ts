import { z } from 'zod'
import { factId, moment, printId, words } from './ledger-parts.ts'
import {
  type RunningClockJson,
  type RunningEndJson,
  type RunningRowJson,
  type RunningToldJson,
  runningEnd,
  runningRowJson,
  runningTakes,
  runningTold,
} from './running-json.ts'

/** A print that runs as it is listed. */
export interface RunningPrintJson {
  readonly row: RunningRowJson
  /** Name of the print's file; null where the print was never kept. */
  readonly file: string | null
  /** Null where the print was never kept. */
  readonly layers: { readonly spiral: boolean; readonly height_mm: readonly number[] } | null
}

/** What `GET /api/running` answers. */
export interface RunningPrintsJson {
  readonly running: readonly RunningPrintJson[]
}

/** A reel of a print that runs, as it is told. */
export interface RunningReelTold {
  readonly tool?: number
  readonly reel: string
  readonly after_layer?: number
  readonly ran_dry?: boolean
}

/** A print that was started. */
export interface RunningRequest {
  /** Made by the client: the same one posted again is counted once. */
  readonly id?: string
  readonly print: string
  readonly printer?: string
  readonly started_at?: string
  readonly reels: readonly RunningReelTold[]
  readonly firmware?: string
  readonly takes?: RunningClockJson
  readonly told?: readonly RunningToldJson[]
  readonly waiting?: string
  readonly note?: string
}

/** What changed of a print that runs; what is not told stays. */
export interface RunningChangeRequest {
  /** Another reel feeds a tool from a layer on. */
  readonly took_over?: {
    readonly tool?: number
    readonly reel: string
    readonly after_layer: number
    /** The one before it ran dry. */
    readonly ran_dry?: boolean
  }
  /** All of them as they fed it, in the place of those that were told. */
  readonly reels?: readonly RunningReelTold[]
  /** Null: it runs still. */
  readonly ended?: RunningEndJson | null
  readonly note?: string | null
}

/** Schema of `RunningPrintsJson`. */
export const runningPrintsJson: z.ZodType<RunningPrintsJson> = z
  .strictObject({
    running: z
      .array(
        z
          .strictObject({
            row: runningRowJson.describe('as it stands in the ledger'),
            file: z.string().nullable().describe('the print’s file; null where it was never kept'),
            layers: z
              .strictObject({
                spiral: z.boolean().describe('it rises all the time'),
                height_mm: z.array(z.number()).describe('of each layer'),
              })
              .nullable(),
          })
          .meta({ id: 'running_print' }),
      )
      .describe('the one started first comes first'),
  })
  .meta({ id: 'running_prints' })

const tool = z.exactOptional(z.int().nonnegative().max(99)).describe('the only one unless given')

const reels = z
  .array(
    z.strictObject({
      tool,
      reel: words.describe('its id'),
      after_layer: z
        .exactOptional(z.int().positive())
        .describe(
          'it took over once this layer was done, from the reel of the same tool told before it; from the start unless given',
        ),
      ran_dry: z.exactOptional(z.boolean()).describe('it ran out in this print'),
    }),
  )
  .min(1)
  .max(100)
  .describe('from which reels it runs, those of a tool in the order in which they fed it')

/** Schema of `RunningRequest`. */
export const runningRequest: z.ZodType<RunningRequest> = z
  .strictObject({
    id: z.exactOptional(
      factId.describe(
        'made by the client: the same one posted again is counted once. The print ends as the draw of this id',
      ),
    ),
    print: printId.describe('of a print that was kept'),
    printer: z.exactOptional(words).describe('name or id; the only one in use unless given'),
    started_at: z.exactOptional(moment).describe('kept to the minute; now unless given'),
    reels,
    firmware: z.exactOptional(words).describe('firmware family; the printer’s unless given'),
    takes: z.exactOptional(runningTakes),
    told: z.exactOptional(runningTold),
    waiting: z
      .exactOptional(words)
      .describe('name or id of the waiting print that it is a copy of'),
    note: z.exactOptional(words),
  })
  .meta({ id: 'running_request' })

/** Schema of `RunningChangeRequest`. */
export const runningChangeRequest: z.ZodType<RunningChangeRequest> = z
  .strictObject({
    took_over: z
      .exactOptional(
        z.strictObject({
          tool,
          reel: words.describe('id of the reel that went on'),
          after_layer: z.int().positive().describe('it feeds once this layer is done'),
          ran_dry: z.exactOptional(z.boolean()).describe('the one before it ran dry'),
        }),
      )
      .describe('another reel feeds a tool from a layer on; told twice it counts once'),
    reels: z.exactOptional(reels).describe('all of them, in the place of those told before'),
    ended: z
      .exactOptional(runningEnd.nullable())
      .describe(
        'how, where no draw says it; null: it runs still. A draw of its id ends it by itself',
      ),
    note: z.exactOptional(words.nullable()).describe('null: not any more'),
  })
  .meta({ id: 'running_change_request' })
