import { z } from 'zod'
import { words } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type SaidRequest, saidParts } from './said-request.ts'

/** What can befall a reel and needs no more than saying so. */
export type EventToldJson =
  | { readonly kind: 'trimmed'; readonly mass_g?: MeasuredJson; readonly length_mm?: MeasuredJson }
  | { readonly kind: 'emptied' }
  | { readonly kind: 'ran-dry'; readonly tail_mm?: MeasuredJson }
  | {
      readonly kind: 'dried'
      readonly temperature_c?: number
      readonly hours?: number
      readonly remaining_share?: MeasuredJson
    }
  | { readonly kind: 'moved'; readonly place: string; readonly air?: 'room' | 'dry' }
  | { readonly kind: 'retired'; readonly reason?: string }

/** What befell a reel. */
export interface EventRequest extends SaidRequest {
  readonly reel: string
  readonly event: EventToldJson
  readonly accept?: boolean
}

const event = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('trimmed'),
      mass_g: z.exactOptional(measuredJson),
      length_mm: z.exactOptional(measuredJson),
    }),
    z.strictObject({ kind: z.literal('emptied') }),
    z.strictObject({ kind: z.literal('ran-dry'), tail_mm: z.exactOptional(measuredJson) }),
    z.strictObject({
      kind: z.literal('dried'),
      temperature_c: z.exactOptional(z.number().min(0).max(200)),
      hours: z.exactOptional(z.number().positive()),
      remaining_share: z.exactOptional(measuredJson),
    }),
    z.strictObject({
      kind: z.literal('moved'),
      place: words,
      air: z.exactOptional(z.enum(['room', 'dry'])),
    }),
    z.strictObject({ kind: z.literal('retired'), reason: z.exactOptional(words) }),
  ])
  .meta({ id: 'event_told' })

/** Schema of `EventRequest`. */
export const eventRequest: z.ZodType<EventRequest> = z
  .strictObject({
    ...saidParts,
    reel: words.describe('id of the reel'),
    event: event.describe('as in the ledger format'),
    accept: z.exactOptional(z.boolean()).describe('it ran dry though that is surprising'),
  })
  .meta({ id: 'event_request' }) as z.ZodType<EventRequest>
