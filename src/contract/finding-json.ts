import { z } from 'zod'

/** Something in a print file that a person should know. */
export interface FindingJson {
  readonly code: string
  readonly severity: 'note' | 'ask' | 'warn'
  readonly line: number
  readonly byte: number
  readonly count: number
  readonly message: string
}

/** Schema of `FindingJson`. */
export const findingJson: z.ZodType<FindingJson> = z
  .strictObject({
    code: z
      .string()
      .regex(/^[a-z0-9_]+$/)
      .describe('stable; the list stands in method/findings.md'),
    severity: z
      .enum(['note', 'ask', 'warn'])
      .describe('`ask` wants an answer before the figures can be trusted'),
    line: z.int().nonnegative().describe('first place, 1-based line of the machine code'),
    byte: z.int().nonnegative().describe('first place, bytes from the start of the machine code'),
    count: z.int().positive().describe('how often'),
    message: z.string().describe('a sentence for a person'),
  })
  .meta({ id: 'finding' })
