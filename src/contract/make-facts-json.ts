import { z } from 'zod'
import { rowId } from './ledger-parts.ts'
import { type ToldFactJson, toldFactJson } from './told-fact-json.ts'

/** What was told of a make alone, and of no reel. */
export interface MakeFactsJson {
  readonly make: string
  readonly name: string
  readonly facts: readonly ToldFactJson[]
}

/** Schema of `MakeFactsJson`. */
export const makeFactsJson: z.ZodType<MakeFactsJson> = z.strictObject({
  make: rowId.describe('which make'),
  name: z.string().describe('maker and name'),
  facts: z
    .array(toldFactJson)
    .describe('the empty carriers weighed of no reel, and the data sheets, oldest first'),
})
