import { z } from 'zod'

/** Why there is no answer, or none for one file of several. */
export interface ErrorPartJson {
  readonly code: string
  readonly message: string
  readonly file: string | null
  readonly option: string | null
  readonly line: number | null
  readonly byte: number | null
  readonly expected: string | null
  readonly received: string | null
}

/** What stands on standard output with `--json` when there is no answer (exit code 2, 3 or 4). */
export interface ErrorJson {
  readonly error: ErrorPartJson
}

/** Schema of `ErrorPartJson`. */
export const errorPartJson: z.ZodType<ErrorPartJson> = z
  .strictObject({
    code: z
      .string()
      .regex(/^[a-z0-9_]+$/)
      .describe('stable'),
    message: z.string().describe('what is wrong and what to do'),
    file: z.string().nullable().describe('the file it is about'),
    option: z.string().nullable().describe('the option it is about, as `--gross`'),
    line: z.number().nullable().describe('1-based line in the machine code'),
    byte: z.number().nullable().describe('byte in the machine code'),
    expected: z.string().nullable().describe('what would have been taken'),
    received: z.string().nullable().describe('what was given'),
  })
  .meta({ id: 'error' })

/** Schema of `ErrorJson`. */
export const errorJson: z.ZodType<ErrorJson> = z.strictObject({
  error: errorPartJson.describe('why there is no answer'),
})
