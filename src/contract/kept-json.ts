import { z } from 'zod'

/** What `backup --json`, `restore --json` and `export FILE --json` write. */
export interface KeptJson {
  readonly file: string
  readonly facts: number
  readonly rows: number
  readonly prints: number
  readonly kept: string | null
}

const count = z.int().nonnegative()

/** Schema of `KeptJson`. */
export const keptJson: z.ZodType<KeptJson> = z.strictObject({
  file: z.string().describe('what was written, or restored from'),
  facts: count.describe('facts in it'),
  rows: count.describe('catalogue rows in it'),
  prints: count.describe('prints in it'),
  kept: z
    .string()
    .nullable()
    .describe('where the ledger stands now that `restore` put aside; null where none was'),
})
