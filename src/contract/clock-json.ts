import { z } from 'zod'

/** When something of a print comes, s after its start; 9 of 10 lie between early and late. */
export interface ClockJson {
  readonly early_s: number | null
  readonly likely_s: number | null
  readonly late_s: number | null
  /** The same as moments; only where the start is known. */
  readonly early_at?: string | null
  readonly likely_at?: string | null
  readonly late_at?: string | null
}

/** The time that a print takes. */
export interface PrintTimeJson {
  /** Moves and dwells as planned; waits are not in it. */
  readonly planned_s: number
  /** Firmware family whose rules it is planned by. */
  readonly family: string
  readonly corner: string
  readonly waits: readonly { readonly kind: string; readonly times: number }[]
  /** From the start to the end, with waits and by the printer's pace. */
  readonly takes: ClockJson
  /** When heights are reached, s after the start, most likely. */
  readonly along: readonly { readonly height_mm: number; readonly reached_s: number }[]
  /** Finished prints that the pace was learnt from. */
  readonly timed_prints: number
  /** Only where it was told. */
  readonly start_at?: string
}

const seconds = z.number().nonnegative().nullable()
const at = z.exactOptional(z.iso.datetime().nullable())

/** Schema of `ClockJson`. */
export const clockJson: z.ZodType<ClockJson> = z
  .strictObject({
    early_s: seconds.describe('earlier with a chance of 5 %'),
    likely_s: seconds.describe('the likeliest'),
    late_s: seconds.describe('later with a chance of 5 %'),
    early_at: at.describe('as a moment; only where the start is told'),
    likely_at: at,
    late_at: at,
  })
  .meta({ id: 'clock', description: 'seconds after the start of the print' })

/** Schema of `PrintTimeJson`. */
export const printTimeJson: z.ZodType<PrintTimeJson> = z
  .strictObject({
    planned_s: z.number().nonnegative().describe('moves and dwells as planned, waits not counted'),
    family: z.string().describe('firmware family whose rules it is planned by'),
    corner: z.string().describe('rule of its corners'),
    waits: z
      .array(
        z.strictObject({
          kind: z
            .string()
            .describe('`bed`, `nozzle`, `chamber`, `homing`, `probing`, `tool`, `person`'),
          times: z.int().positive(),
        }),
      )
      .describe('what the printer waits for besides'),
    takes: clockJson.describe('from the start to the end, by the printer’s pace'),
    along: z
      .array(
        z.strictObject({ height_mm: z.number().positive(), reached_s: z.number().nonnegative() }),
      )
      .describe(
        'when heights are reached, both rising; none where layers are not known, or objects are printed one after another',
      ),
    timed_prints: z.int().nonnegative().describe('finished prints that the pace was learnt from'),
    start_at: z.exactOptional(z.iso.datetime()).describe('only where it was told'),
  })
  .meta({ id: 'print_time' })
