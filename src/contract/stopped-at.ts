import { z } from 'zod'
import type { StoppedAtJson } from './fact-json.ts'

/** Where a print ended before its end, as a request tells it: by one of three. */
export const stoppedAt: z.ZodType<StoppedAtJson> = z.union([
  z.strictObject({ layer: z.int().positive() }),
  z.strictObject({ share: z.number().min(0).max(1) }),
  z.strictObject({ height_mm: z.number().nonnegative() }),
]) as z.ZodType<StoppedAtJson>
