import { z } from 'zod'
import { rowId } from './ledger-parts.ts'

/** A reel of the shelf by what people know it by. */
export interface ReelHeadJson {
  readonly id: string
  readonly make: string | null
  readonly material: string | null
  readonly material_name: string | null
  readonly diameter_mm: number
  readonly colour: string | null
  readonly srgb: string | null
  readonly lot: string | null
  readonly place: string | null
  readonly state: 'new' | 'part-used' | 'empty' | 'retired'
}

/** Schema of `ReelHeadJson`. */
export const reelHeadJson: z.ZodType<ReelHeadJson> = z
  .strictObject({
    id: rowId.describe('of the reel'),
    make: z.string().nullable().describe('maker and name'),
    material: z.string().nullable().describe('id of the material'),
    material_name: z.string().nullable().describe('what people call it'),
    diameter_mm: z.number().positive().describe('nominal diameter of the filament'),
    colour: z.string().nullable().describe('name of its colour'),
    srgb: z.string().nullable().describe('the colour on a screen, `#rrggbb`'),
    lot: z.string().nullable().describe("the maker's lot"),
    place: z.string().nullable().describe('where it stands'),
    state: z.enum(['new', 'part-used', 'empty', 'retired']).describe('where its life stands'),
  })
  .meta({ id: 'reel_head' })
