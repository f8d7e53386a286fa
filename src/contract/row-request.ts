import { z } from 'zod'
import { words } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type SaidRequest, saidParts } from './said-request.ts'

/** What a maker's sheet states. */
export interface SheetRequest extends SaidRequest {
  readonly make: string
  readonly source: string
  readonly density_g_per_cm3?: MeasuredJson
  readonly tare_g?: MeasuredJson
}

/** Schema of `SheetRequest`. */
export const sheetRequest: z.ZodType<SheetRequest> = z
  .strictObject({
    ...saidParts,
    make: words.describe('name or id of the make'),
    source: words.describe('which sheet'),
    density_g_per_cm3: z.exactOptional(measuredJson),
    tare_g: z.exactOptional(measuredJson),
  })
  .meta({ id: 'sheet_request' }) as z.ZodType<SheetRequest>

/** What this shelf believes beforehand of one thing. */
export interface PriorRequest {
  /** Null: as usual again. */
  readonly own: MeasuredJson | null
}

/** Schema of `PriorRequest`. */
export const priorRequest: z.ZodType<PriorRequest> = z
  .strictObject({ own: measuredJson.nullable().describe('null: as usual again') })
  .meta({ id: 'prior_request' })
