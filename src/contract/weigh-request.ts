import { z } from 'zod'
import { words } from './ledger-parts.ts'
import {
  type SaidRequest,
  saidParts,
  type WeighingTellJson,
  weighingTellJson,
} from './said-request.ts'

/** Something put on a scale. */
export interface WeighRequest extends SaidRequest {
  readonly reel?: string
  readonly make?: string
  readonly empty?: boolean
  readonly another?: boolean
  readonly label_net_g?: number
  readonly weighing: WeighingTellJson
  readonly accept?: boolean
  readonly test?: boolean
}

/** Schema of `WeighRequest`. */
export const weighRequest: z.ZodType<WeighRequest> = z
  .strictObject({
    ...saidParts,
    reel: z.exactOptional(words).describe('id of the reel'),
    make: z
      .exactOptional(words)
      .describe('name or id of the make whose empty carrier it was; goes with `empty`'),
    empty: z.exactOptional(z.boolean()).describe('the carrier was empty'),
    another: z
      .exactOptional(z.boolean())
      .describe('the empty carrier was not the reel’s own but another of its make'),
    label_net_g: z
      .exactOptional(z.number().positive())
      .describe(
        'of a make’s empty carrier: the net mass on the label of what it carried; needed where reels of the make came on carriers of several sizes',
      ),
    weighing: weighingTellJson,
    accept: z.exactOptional(z.boolean()).describe('write it down though it is surprising'),
    test: z.exactOptional(z.boolean()).describe('hold it against the shelf, write nothing down'),
  })
  .meta({ id: 'weigh_request' }) as z.ZodType<WeighRequest>
