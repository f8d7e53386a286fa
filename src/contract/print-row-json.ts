import { z } from 'zod'
import { moment, printId } from './ledger-parts.ts'

/** One tool as one group of firmware families reads it; columns as in the reader's draw curve. */
export interface PrintToolRowJson {
  readonly tool: number
  readonly peak_mm: number
  readonly net_mm: number
  readonly start_macro_mm: number
  readonly layer_end_mm: readonly number[]
  readonly curve: {
    readonly draw_mm: readonly number[]
    readonly height_mm: readonly number[]
    readonly layer: readonly number[]
    readonly byte: readonly number[]
    /** Absent of a print kept before its times were. */
    readonly time_s?: readonly number[]
  }
}

/** A print as it is kept: what was read of it. Its file need not be kept. */
export interface PrintRowJson {
  readonly kind: 'print'
  readonly id: string
  readonly changed_at: string
  /** As the file was named when it was read. */
  readonly file: string
  readonly bytes: number
  readonly families: readonly {
    readonly families: readonly string[]
    readonly tools: readonly PrintToolRowJson[]
  }[]
  readonly layers: {
    readonly count: number
    readonly passes: number
    readonly spiral: boolean
    readonly step_mm: number
    readonly height_mm: readonly number[]
    readonly end_byte: readonly number[]
    readonly end_line: readonly number[]
    readonly end_time_s?: readonly number[]
  }
  /** Reel changes that the file plans, as the first of `families` reads it; absent of a print kept before they were. */
  readonly changes?: readonly {
    readonly byte: number
    readonly draw_mm: readonly number[]
  }[]
  /** Absent of a print kept before its times were. */
  readonly time?: PrintRowTimeJson
}

/** The time of a print as it is kept, to a tenth of a second. */
export interface PrintRowTimeJson {
  readonly planned_s: number
  readonly family: string
  readonly corner: string
  readonly waits: readonly {
    readonly kind: string
    readonly at_s: number
    readonly times: number
  }[]
}

const column = z.array(z.number()).max(2_000_000)

/** Schema of `PrintRowJson`. */
export const printRowJson: z.ZodType<PrintRowJson> & z.core.$ZodTypeDiscriminable = z
  .strictObject({
    kind: z.literal('print'),
    id: printId,
    changed_at: moment.describe('when it was read; the latest reading holds'),
    file: z.string().max(1000).describe('as the file was named when it was read'),
    bytes: z.int().nonnegative(),
    families: z
      .array(
        z.strictObject({
          families: z.array(z.string()),
          tools: z.array(
            z.strictObject({
              tool: z.int().nonnegative(),
              peak_mm: z.number().nonnegative(),
              net_mm: z.number(),
              start_macro_mm: z.number().nonnegative(),
              layer_end_mm: column,
              curve: z.strictObject({
                draw_mm: column,
                height_mm: column,
                layer: column,
                byte: column,
                time_s: z.exactOptional(column).describe('planned, waits not counted'),
              }),
            }),
          ),
        }),
      )
      .describe('one entry for each way in which firmware reads the file'),
    layers: z.strictObject({
      count: z.int().nonnegative(),
      passes: z.int().nonnegative(),
      spiral: z.boolean(),
      step_mm: z.number().nonnegative(),
      height_mm: column,
      end_byte: column,
      end_line: column,
      end_time_s: z.exactOptional(column).describe('planned, waits not counted'),
    }),
    changes: z
      .exactOptional(
        z
          .array(
            z.strictObject({
              byte: z.number().nonnegative().describe('where it stands in the machine code'),
              draw_mm: z
                .array(z.number().nonnegative())
                .max(1000)
                .describe('reached by each tool, T0 first, as the first of `families` reads it'),
            }),
          )
          .max(100_000),
      )
      .describe(
        'reel changes that the file plans, in the order of the print; absent of a print kept before they were',
      ),
    time: z
      .exactOptional(
        z.strictObject({
          planned_s: z.number().nonnegative(),
          family: z.string().describe('firmware family whose rules it was planned by'),
          corner: z.string().describe('rule of its corners'),
          waits: z
            .array(
              z.strictObject({
                kind: z.string(),
                at_s: z.number().nonnegative().describe('planned time at which it waits'),
                times: z.int().positive(),
              }),
            )
            .max(2000)
            .describe('what the printer waits for besides'),
        }),
      )
      .describe('times to a tenth of a second; absent of a print kept before its times were'),
  })
  .meta({ id: 'print_row', description: 'A print by its hash, with its draw curve.' })
