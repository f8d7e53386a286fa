import { z } from 'zod'
import { moment, printId } from './ledger-parts.ts'

/** Why there is no answer, as problem details. */
export interface ProblemJson {
  readonly type: 'about:blank'
  readonly title: string
  readonly status: number
  readonly detail: string
  readonly code: string
  readonly expected?: string
  readonly received?: string
  readonly line?: number
}

/** Schema of `ProblemJson`. @see RFC 9457 */
export const problemJson: z.ZodType<ProblemJson> = z
  .strictObject({
    type: z.literal('about:blank').describe('the code says which problem it is'),
    title: z.string().describe('of the status'),
    status: z.int().min(400).max(599),
    detail: z.string().describe('what is wrong and what to do'),
    code: z
      .string()
      .regex(/^[a-z0-9_]+$/)
      .describe('stable'),
    expected: z.exactOptional(z.string()),
    received: z.exactOptional(z.string()),
    line: z.exactOptional(z.int()).describe('1-based line of what was sent'),
  })
  .meta({ id: 'problem', description: 'Problem details by RFC 9457.' })

/** Where the ledger stands. */
export interface ChangeJson {
  /** Another number: another ledger was put in the place of the one before. */
  readonly ledger: number
  /** Of the ledger for as long as it is, its backups included. */
  readonly ledger_id: string
  /** Grows with whatever is written. */
  readonly revision: number
}

/** Schema of `ChangeJson`. */
export const changeJson: z.ZodType<ChangeJson> = z
  .strictObject({
    ledger: z.int().describe('another number: another ledger took its place'),
    ledger_id: z.string().describe('which ledger it is: the same in each run and in its backups'),
    revision: z.int().describe('grows with whatever is written'),
  })
  .meta({ id: 'change' })

/** Prints that were kept. */
export interface PrintsJson {
  readonly prints: readonly {
    readonly id: string
    readonly changed_at: string
    readonly file: string
    readonly bytes: number
  }[]
}

/** Schema of `PrintsJson`. */
export const printsJson: z.ZodType<PrintsJson> = z.strictObject({
  prints: z
    .array(z.strictObject({ id: printId, changed_at: moment, file: z.string(), bytes: z.number() }))
    .describe('latest first'),
})

/** That the server is there. */
export interface HealthJson {
  readonly status: 'ok'
}

/** Schema of `HealthJson`. */
export const healthJson: z.ZodType<HealthJson> = z.strictObject({ status: z.literal('ok') })
