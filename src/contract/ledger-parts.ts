import { z } from 'zod'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { idLength, isId } from './short-id.ts'

/** Id of a reel or of a catalogue row. */
export const rowId: z.ZodType<string> = z
  .string()
  .refine((text) => isId(text, idLength.row), 'no id, or one with a slip in it')
  .meta({ id: 'row_id', description: 'five symbols, the last of which checks the others' })

/** Id of a fact. */
export const factId: z.ZodType<string> = z
  .string()
  .refine((text) => isId(text, idLength.fact), 'no id, or one with a slip in it')
  .meta({ id: 'fact_id', description: 'nine symbols, the last of which checks the others' })

/** A moment, UTC to the millisecond, as `2026-03-01T18:30:00.000Z`: text order is order of time. */
export const moment: z.ZodType<string> = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/)
  .refine((text) => isMoment(text), 'no date')
  .meta({ id: 'moment', description: 'UTC, to the millisecond' })

const isMoment = (text: string): boolean => {
  const parsed = new Date(text)
  return !Number.isNaN(parsed.getTime()) && parsed.toISOString() === text
}

/** A few words or a name as a person writes it; no control characters, not only blanks. */
export const words: z.ZodType<string> = z
  .string()
  .min(1)
  .max(500)
  // oxlint-disable-next-line no-control-regex
  .regex(/^[^\u0000-\u001f\u007f]*[^\s\u0000-\u001f\u007f][^\u0000-\u001f\u007f]*$/)
  .meta({ id: 'words', description: 'text of one line' })

/** SHA-256 of a print's file; for a member of a zip its name after a slash. */
export const printId: z.ZodType<string> = z
  .string()
  .max(600)
  .regex(/^[0-9a-f]{64}(\/.+)?$/s)
  .meta({ id: 'print_id', description: 'SHA-256 of the file, with /NAME for a member of a zip' })

/** Something put on a scale. */
export interface WeighingJson {
  readonly scale: string
  readonly reading_g: number
  readonly u_g?: number
  readonly extra_g?: MeasuredJson
}

/** Schema of `WeighingJson`. */
export const weighingJson: z.ZodType<WeighingJson> = z
  .strictObject({
    scale: rowId.describe('the scale it stood on'),
    reading_g: z.number().nonnegative().describe('as shown'),
    u_g: z
      .exactOptional(z.number().positive())
      .describe('standard uncertainty of this reading, where better known than by the scale'),
    extra_g: z
      .exactOptional(measuredJson)
      .describe('known mass on the scale that is neither filament nor carrier'),
  })
  .meta({ id: 'weighing' })
