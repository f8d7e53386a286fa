import { z } from 'zod'
import { factId, moment, rowId } from './ledger-parts.ts'

/** A weighing of the ledger that everything else contradicts. */
export interface ContradictedJson {
  readonly reel: string
  readonly fact: string
  readonly at: string
  readonly reading_g: number
  readonly off_g: number
  readonly off: number
}

/** Schema of `ContradictedJson`. */
export const contradictedJson: z.ZodType<ContradictedJson> = z
  .strictObject({
    reel: rowId.describe('id of the reel that was weighed'),
    fact: factId.describe(
      'id of the weighing, of the reel or its empty carrier, or of the opening that it was made at',
    ),
    at: moment.describe('when it was made'),
    reading_g: z.number().nonnegative().describe('as shown'),
    off_g: z.number().describe('shown less what everything else predicts'),
    off: z.number().describe('the same in standard deviations'),
  })
  .meta({ id: 'contradicted' })
