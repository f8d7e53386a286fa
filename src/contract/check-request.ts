import { z } from 'zod'
import type { PrinterRowJson } from './catalogue-json.ts'
import { moment, printId, words } from './ledger-parts.ts'
import { calipersJson, cutJson, type MeasureRequest } from './measure-request.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type ReelTellJson, reelTell } from './reel-tell-json.ts'
import { type WeighingTellJson, weighingTellJson } from './said-request.ts'

/** A stated mass in the place of a print, and what it was computed with. */
export interface MassTellJson {
  readonly mass_g: number
  readonly material?: string
  readonly density_g_per_cm3?: MeasuredJson
  readonly diameter_mm?: MeasuredJson
}

/** Where it is to be printed, and how sure a call must be. */
export interface WhereAskedRequest
  extends Pick<PrinterRowJson, 'feed_factor' | 'start_allowance_mm' | 'tail_mm'> {
  readonly printer?: string
  readonly firmware?: string
  readonly confidence?: number
}

/** What is to be printed, and where. */
export interface PrintAskedRequest extends WhereAskedRequest {
  readonly print?: string
  readonly length_mm?: number
  readonly mass?: MassTellJson
  readonly cut_short?: boolean
  readonly after_layer?: number
  readonly stretch?: number
  readonly start_at?: string
}

/** Which reels of the shelf come into question, and how many of them are told. */
export interface OfShelfRequest {
  readonly material?: string
  readonly colour?: string
  readonly make?: string
  readonly place?: string
  readonly diameter_mm?: number
  readonly all?: boolean
  readonly most?: number
}

/** Which reels of the shelf could do it? */
export interface CheckShelfRequest extends PrintAskedRequest, OfShelfRequest {}

/** What is supposed to have been measured of a reel now: nothing is written down. */
export interface SupposedJson extends Pick<MeasureRequest, 'calipers' | 'cut'> {
  readonly weighing?: WeighingTellJson
  readonly empty_carrier?: WeighingTellJson
}

/** A reel for one tool: one of the shelf, or one that is told here. */
export type ReelAskedJson = { readonly tool?: number } & (
  | (SupposedJson & { readonly reel: string })
  | ReelTellJson
)

/** Will these reels do it? */
export interface CheckReelsRequest extends PrintAskedRequest {
  readonly reels: readonly ReelAskedJson[]
}

/** Will the reels do several prints, one after another on one printer? */
export interface CheckInTurnRequest extends WhereAskedRequest {
  readonly prints: readonly { readonly print: string; readonly cut_short?: boolean }[]
  readonly start_at: string
  readonly reels?: readonly ReelAskedJson[]
  readonly of_shelf?: OfShelfRequest
}

type KeysOf<T> = { readonly [K in keyof Required<T>]: z.ZodExactOptional }

const notNegative = measuredJson.refine(({ value }) => value >= 0, 'below 0')

/** What may be told of a printer in a check. */
export const printerAsked: KeysOf<
  Pick<WhereAskedRequest, 'feed_factor' | 'start_allowance_mm' | 'tail_mm'>
> = {
  feed_factor: z
    .exactOptional(
      measuredJson.refine(({ value }) => value >= 0.8 && value <= 1.25, 'no factor about 1'),
    )
    .describe('what the printer feeds per millimetre asked; it goes before what is learnt'),
  start_allowance_mm: z
    .exactOptional(notNegative)
    .describe('filament used before the file begins; it goes before what is learnt'),
  tail_mm: z.exactOptional(notNegative).describe('last length that can not be printed'),
}

const whereAsked: KeysOf<WhereAskedRequest> = {
  printer: z
    .exactOptional(words)
    .describe(
      'name or id; unless given the only one in use, and of several the one that would take most; where no reel of the shelf is named, any printer',
    ),
  firmware: z.exactOptional(words).describe('firmware family; the printer’s unless given'),
  confidence: z.exactOptional(z.number().gt(0.5).lt(1)).describe('0.95 unless given'),
  ...printerAsked,
}

const startAt = moment.describe('when it is started: its times are told as moments, too')

const cutShort = z
  .exactOptional(z.boolean())
  .describe(
    'the reader found that the file may not be whole, or nothing that it draws: no reel is called enough then',
  )

const mass = z
  .strictObject({
    mass_g: z.number().positive().max(1e6),
    material: z.exactOptional(words).describe('of the built-in table'),
    density_g_per_cm3: z
      .exactOptional(measuredJson)
      .describe('goes before the material’s; where `u` is 0 the spread usual for sheets is taken'),
    diameter_mm: z.exactOptional(measuredJson).describe('1.75 unless given'),
  })
  .meta({
    id: 'mass_told',
    description: 'A mass that somebody stated for a print, and what it was computed with.',
  })

const printAsked: KeysOf<PrintAskedRequest> = {
  print: z.exactOptional(printId).describe('of a print that was kept'),
  length_mm: z.exactOptional(z.number().positive().max(1e9)).describe('in the place of a print'),
  mass: z.exactOptional(mass).describe('in the place of a print'),
  ...whereAsked,
  after_layer: z
    .exactOptional(z.int().positive())
    .describe('only what comes after this layer, as for a reel that takes over there'),
  stretch: z
    .exactOptional(z.int().positive().max(9999))
    .describe('only the part between planned reel changes; 1 is up to the first'),
  cut_short: cutShort,
  start_at: z.exactOptional(startAt),
}

const ofShelf: KeysOf<OfShelfRequest> = {
  material: z.exactOptional(words).describe('only reels of this material'),
  colour: z.exactOptional(words).describe('only reels with these words in their colour'),
  make: z.exactOptional(words).describe('only reels with these words in maker and name'),
  place: z.exactOptional(words).describe('only reels that stand there'),
  diameter_mm: z.exactOptional(z.number().positive()).describe('nominal'),
  all: z.exactOptional(z.boolean()).describe('with all reels that are short'),
  most: z.exactOptional(z.int().min(1).max(1e6)).describe('no more reels than this for each tool'),
}

/** Schema of `CheckShelfRequest`. */
export const checkShelfRequest: z.ZodType<CheckShelfRequest> = z
  .strictObject({ ...printAsked, ...ofShelf })
  .meta({ id: 'check_shelf_request' }) as z.ZodType<CheckShelfRequest>

const tool = z
  .exactOptional(z.int().nonnegative())
  .describe('the first tool without a reel, unless given')

const named = z
  .strictObject({
    tool,
    reel: words.describe('id of the reel'),
    weighing: z
      .exactOptional(weighingTellJson)
      .describe('as it would stand on the scale now; nothing is written down'),
    empty_carrier: z
      .exactOptional(weighingTellJson)
      .describe('as another carrier of its make would, weighed empty; nothing is written down'),
    calipers: calipersJson.describe(
      'pairs of diameters, square to each other, as if they were measured; nothing is written down',
    ),
    cut: cutJson.describe('a piece as if it were cut off and weighed; nothing is written down'),
  })
  .meta({
    id: 'reel_named',
    description: 'A reel of the shelf, with what is supposed to have been measured of it.',
  })

const told = z
  .strictObject({
    tool,
    ...reelTell,
    // So that of a reel that is named nothing is told as if it were not.
    reel: z.exactOptional(z.never()).describe('never: that is a reel of the shelf'),
  })
  .meta({
    id: 'reel_told',
    description: 'What is known of a reel that is on no shelf, in any mixture.',
  })

/** One or the other, by whether a reel is named: what is wrong is told of that one alone. */
export const reelsAsked: z.ZodType<readonly ReelAskedJson[]> = z
  .array(z.union([named, told]))
  .min(1)
  .max(64) as unknown as z.ZodType<readonly ReelAskedJson[]>

/** Schema of `CheckReelsRequest`. */
export const checkReelsRequest: z.ZodType<CheckReelsRequest> = z
  .strictObject({ ...printAsked, reels: reelsAsked.describe('one for each tool that feeds') })
  .meta({ id: 'check_reels_request' }) as z.ZodType<CheckReelsRequest>

/** Schema of `CheckInTurnRequest`. */
export const checkInTurnRequest: z.ZodType<CheckInTurnRequest> = z
  .strictObject({
    ...whereAsked,
    prints: z
      .array(
        z.strictObject({
          print: printId.describe('of a print that was kept'),
          cut_short: cutShort,
        }),
      )
      .min(1)
      .max(50)
      .describe('in the order in which they are printed'),
    start_at: moment.describe('when the first is started'),
    reels: z
      .exactOptional(reelsAsked)
      .describe('they serve every print; all of the shelf come into question unless given'),
    of_shelf: z
      .exactOptional(z.strictObject(ofShelf))
      .describe('which reels of the shelf, and how many of them are told; 5 unless given'),
  })
  .refine(
    ({ reels: given, of_shelf: among }) => given === undefined || among === undefined,
    'reels and of_shelf are two ways to say which reels: give one of them',
  )
  .meta({ id: 'check_in_turn_request' }) as z.ZodType<CheckInTurnRequest>
