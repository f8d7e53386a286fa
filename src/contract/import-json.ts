import { z } from 'zod'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What `import --json` writes. */
export interface ImportJson {
  readonly file: string
  readonly dry_run: boolean
  readonly written: number
  readonly same: number
  readonly older: number
  readonly reels: readonly {
    readonly row: number
    readonly id: string
    readonly what: string
    readonly net_g: MeasuredJson | null
  }[]
  readonly skipped: readonly {
    readonly row: number
    readonly column: string | null
    readonly code: string
    readonly message: string
  }[]
  readonly columns: readonly { readonly key: string; readonly column: string }[]
}

const count = z.int().nonnegative()

/** Schema of `ImportJson`. */
export const importJson: z.ZodType<ImportJson> = z.strictObject({
  file: z.string().describe('as given; `-` for standard input'),
  dry_run: z.boolean().describe('nothing was written'),
  written: count.describe('records written, or that would be'),
  same: count.describe('records that were there already; not told of a dry run'),
  older: count.describe('rows older than what the ledger has; not told of a dry run'),
  reels: z
    .array(
      z.strictObject({
        row: count.describe('line of the sheet'),
        id: z.string().describe('id given to the reel'),
        what: z.string().describe('its make and colour'),
        net_g: measuredJson
          .nullable()
          .describe('filament on it, or that would be; null where it can not be reckoned'),
      }),
    )
    .describe('reels out of a sheet'),
  skipped: z
    .array(
      z.strictObject({
        row: count.describe('line of the sheet'),
        column: z.string().nullable().describe('which cell; null where it is about the row'),
        code: z.string().describe('stable, snake_case'),
        message: z.string().describe('why it was not taken'),
      }),
    )
    .describe('rows that were left out'),
  columns: z
    .array(
      z.strictObject({
        key: z.string().describe('what it tells of a reel'),
        column: z.string().describe('its heading'),
      }),
    )
    .describe('how a sheet was understood'),
})
