import { z } from 'zod'
import { type CheckJson, checkJson } from './check-json.ts'
import { type ErrorPartJson, errorPartJson } from './error-json.ts'
import { type ShelfCheckJson, shelfCheckJson } from './shelf-check-json.ts'

/** What `check --json` writes of several prints, each judged by itself. */
export interface ChecksJson {
  readonly verdict: 'enough' | 'close' | 'short' | null
  readonly checks: readonly (CheckJson | ShelfCheckJson)[]
  readonly together: CheckJson | null
  readonly errors: readonly ErrorPartJson[]
}

/** Schema of `ChecksJson`. */
export const checksJson: z.ZodType<ChecksJson> = z.strictObject({
  verdict: z
    .enum(['enough', 'close', 'short'])
    .nullable()
    .describe(
      'the worst of all; null where no print could be judged, or one could not and the others are enough',
    ),
  checks: z
    .array(z.union([checkJson, shelfCheckJson]))
    .describe('one for each print, as it would be written of that print alone'),
  together: checkJson
    .nullable()
    .describe('of several prints in turn: all of them from the reels that were told, as one'),
  errors: z
    .array(errorPartJson)
    .describe('one for each file that could not be read, or print that could not be judged'),
})
