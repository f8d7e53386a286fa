import { z } from 'zod'

/** A stop in a copy of a print file. */
export interface PauseToldJson {
  readonly after_layer: number
  readonly height_mm: number
  readonly line: number
  readonly byte: number
  readonly tool: number
  readonly drawn_mm: readonly { readonly tool: number; readonly draw_mm: number }[]
  readonly text: string
}

/** What `pause --json` writes. */
export interface PausedCopyJson {
  readonly file: string
  readonly member: string | null
  readonly to: string
  readonly firmware: string
  readonly command: string
  readonly does: string
  readonly needs: string
  readonly pauses: readonly PauseToldJson[]
  readonly bytes: number
  readonly sha256: string
  readonly notes: readonly string[]
  readonly caution: string
}

const whole = z.int().nonnegative()

/** Schema of `PausedCopyJson`. */
export const pausedCopyJson: z.ZodType<PausedCopyJson> = z
  .strictObject({
    file: z.string().describe('the print file'),
    member: z.string().nullable().describe('the print of a zip; null elsewhere'),
    to: z.string().describe('the copy: machine code, not packed'),
    firmware: z.string().describe('family that the copy is for'),
    command: z.string().describe('by which it is told to wait'),
    does: z.string().describe('what the machine does then'),
    needs: z.string().describe('what it has to be set up for'),
    pauses: z.array(
      z
        .strictObject({
          after_layer: z.int().positive().describe('the layer that is finished before it'),
          height_mm: z.number(),
          line: whole.describe('line of the copy that was put in'),
          byte: whole.describe('where that line begins in the copy'),
          tool: whole.describe('the tool that drew last'),
          drawn_mm: z
            .array(z.strictObject({ tool: whole, draw_mm: z.number().nonnegative() }))
            .describe('drawn by then, tool by tool'),
          text: z.string().describe('the line, without its end'),
        })
        .meta({ id: 'pause_told' }),
    ),
    bytes: whole.describe('of the copy'),
    sha256: z.string().describe('of the copy'),
    notes: z.array(z.string()).describe('what a person should know beside'),
    caution: z.string().describe('of hot parts'),
  })
  .meta({ id: 'paused_copy' })
