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
  }
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
    }),
  })
  .meta({ id: 'print_row', description: 'A print by its hash, with its draw curve.' })
