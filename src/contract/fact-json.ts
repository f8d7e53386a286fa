import { z } from 'zod'
import {
  factId,
  moment,
  printId,
  rowId,
  type WeighingJson,
  weighingJson,
  words,
} from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type PriceJson, priceJson } from './price-json.ts'

/** What every fact has. */
export interface FactCommonJson {
  readonly id: string
  /** When it happened. */
  readonly at: string
  /** When it was written down. */
  readonly recorded_at: string
  /** Id of a person. */
  readonly by?: string
  readonly note?: string
}

/** A colour by its name, and on a screen. */
export interface ColourJson {
  readonly name: string
  /** `#rrggbb`, lower case, sRGB. */
  readonly srgb?: string
}

export interface OpenedJson extends FactCommonJson {
  readonly kind: 'opened'
  readonly reel: string
  readonly make: string
  readonly label_net_g?: number
  readonly gross_when_new?: WeighingJson
  readonly part_used?: true
  readonly price?: PriceJson
  readonly colour?: ColourJson
  readonly lot?: string
  readonly place?: string
}

export interface WeighedJson extends FactCommonJson {
  readonly kind: 'weighed'
  readonly reel: string
  readonly weighing: WeighingJson
  /** It was surprising, by this many standard deviations, and taken as coming after something unrecorded. */
  readonly accepted_off?: number
}

export interface CarrierWeighedJson extends FactCommonJson {
  readonly kind: 'carrier-weighed'
  readonly make: string
  readonly reel?: string
  readonly label_net_g?: number
  readonly weighing: WeighingJson
}

/** Where a print ended before its end; one of them. */
export interface StoppedAtJson {
  readonly layer?: number
  readonly share?: number
  readonly height_mm?: number
}

/** How long a finished print took from its start, and what was planned of it. */
export interface TimedJson {
  readonly took_s: number
  readonly planned_s: number
  /** What the printer waited for, by kind. */
  readonly waits: Readonly<Record<string, number>>
}

export interface DrewJson extends FactCommonJson {
  readonly kind: 'drew'
  readonly reel: string
  readonly printer: string
  /** Draw of the whole print as asked by its file. */
  readonly length_mm: number
  readonly print?: string
  readonly tool?: number
  /** What the person said of where it ended; finished unless given. */
  readonly stopped_at?: StoppedAtJson
  /** Share of the draw that was fed; 1 unless given. */
  readonly share?: MeasuredJson
  /** The layers that it fed, 1-based, where reels were changed in the print: the whole print unless given. */
  readonly layers?: { readonly after?: number; readonly to?: number }
  /** How long the whole print took, and what was planned; of a print with several reels once. */
  readonly timed?: TimedJson
  /** More, by this many standard deviations, than the reel was believed to hold, and taken all the same. */
  readonly accepted_off?: number
}

export interface TrimmedJson extends FactCommonJson {
  readonly kind: 'trimmed'
  readonly reel: string
  readonly mass_g?: MeasuredJson
  readonly length_mm?: MeasuredJson
  /** As of a draw. */
  readonly accepted_off?: number
}

export interface EmptiedJson extends FactCommonJson {
  readonly kind: 'emptied'
  readonly reel: string
}

export interface RanDryJson extends FactCommonJson {
  readonly kind: 'ran-dry'
  readonly reel: string
  readonly tail_mm?: MeasuredJson
  /** It was surprising, by this many standard deviations, and taken all the same. */
  readonly accepted_off?: number
}

/** Anything measured of a reel's filament. */
export interface MeasuredFactJson extends FactCommonJson {
  readonly kind: 'measured'
  readonly reel: string
  readonly calipers?: {
    readonly places_mm: readonly (readonly [number, number])[]
    readonly step_mm?: number
    readonly error_mm?: number
  }
  readonly cut?: { readonly length_mm: MeasuredJson; readonly weighing: WeighingJson }
  /** A piece weighed in air and hung in water. */
  readonly immersion?: {
    readonly in_air_g: MeasuredJson
    readonly in_water_g: MeasuredJson
    readonly water_c: number
  }
  readonly density_g_per_cm3?: MeasuredJson
  readonly linear_density_g_per_m?: MeasuredJson
  readonly winding?: {
    readonly hub_mm: MeasuredJson
    readonly outer_mm: MeasuredJson
    readonly width_mm: MeasuredJson
  }
}

export interface DataSheetJson extends FactCommonJson {
  readonly kind: 'data-sheet'
  readonly make: string
  readonly source: string
  readonly density_g_per_cm3?: MeasuredJson
  readonly tare_g?: MeasuredJson
}

export interface DriedJson extends FactCommonJson {
  readonly kind: 'dried'
  readonly reel: string
  readonly temperature_c?: number
  readonly hours?: number
  /** Water left over dry mass, where known. */
  readonly remaining_share?: MeasuredJson
}

export interface MovedJson extends FactCommonJson {
  readonly kind: 'moved'
  readonly reel: string
  readonly place: string
  /** Air that it stands in from now on; as before unless given. */
  readonly air?: 'room' | 'dry'
}

export interface RetiredJson extends FactCommonJson {
  readonly kind: 'retired'
  readonly reel: string
  readonly reason?: string
}

export interface PutRightJson extends FactCommonJson {
  readonly kind: 'put-right'
  /** Id of the fact that does not hold. */
  readonly voids: string
  readonly reason: string
  /** Id of the fact that holds in its place. */
  readonly instead?: string
}

/** One fact of the ledger. Facts are never changed; `put-right` says that one does not hold. */
export type FactJson =
  | OpenedJson
  | WeighedJson
  | CarrierWeighedJson
  | DrewJson
  | TrimmedJson
  | EmptiedJson
  | RanDryJson
  | MeasuredFactJson
  | DataSheetJson
  | DriedJson
  | MovedJson
  | RetiredJson
  | PutRightJson

const common = {
  id: factId,
  at: moment.describe('when it happened'),
  recorded_at: moment.describe('when it was written down'),
  by: z.exactOptional(rowId).describe('the person who says so'),
  note: z.exactOptional(words),
}

const reel = rowId.describe('the reel')
const mass = z.number().positive()
const share = z.number().min(0).max(1)
const positive = measuredJson.refine(({ value }) => value > 0, 'not above 0')
const notNegative = measuredJson.refine(({ value }) => value >= 0, 'below 0')

const opened = z
  .strictObject({
    kind: z.literal('opened'),
    ...common,
    reel: rowId.describe('the reel, which begins with this fact'),
    make: rowId.describe('its make'),
    label_net_g: z.exactOptional(mass).describe('net mass on its label'),
    gross_when_new: z.exactOptional(weighingJson).describe('weighed before anything was fed'),
    part_used: z.exactOptional(z.literal(true)).describe('some had been fed before this fact'),
    price: z.exactOptional(priceJson).describe('what was paid for it'),
    colour: z
      .exactOptional(
        z.strictObject({
          name: words,
          srgb: z.exactOptional(z.string().regex(/^#[0-9a-f]{6}$/)).describe('sRGB, `#rrggbb`'),
        }),
      )
      .describe('of the filament'),
    lot: z.exactOptional(words).describe("the maker's lot"),
    place: z.exactOptional(words).describe('where it stands'),
  })
  .meta({ id: 'opened', description: 'A reel came to the shelf.' })

const weighed = z
  .strictObject({
    kind: z.literal('weighed'),
    ...common,
    reel,
    weighing: weighingJson,
    accepted_off: z
      .exactOptional(z.number())
      .describe(
        'surprising by this many standard deviations, and taken all the same: something unrecorded came before it',
      ),
  })
  .meta({ id: 'weighed', description: 'A reel stood on a scale.' })

const carrierWeighed = z
  .strictObject({
    kind: z.literal('carrier-weighed'),
    ...common,
    make: rowId.describe('the make of the carrier'),
    reel: z.exactOptional(rowId).describe('the reel whose carrier it is'),
    label_net_g: z
      .exactOptional(z.number().positive())
      .describe(
        'of no reel: the net mass on the label of what it carried, by which its size is told; that of its make unless given',
      ),
    weighing: weighingJson,
  })
  .meta({ id: 'carrier-weighed', description: 'An empty carrier stood on a scale.' })

const moreThanHeld = z
  .exactOptional(z.number())
  .describe(
    'more, by this many standard deviations, than the reel was believed to hold, and taken all the same',
  )

const drew = z
  .strictObject({
    kind: z.literal('drew'),
    ...common,
    reel,
    printer: rowId,
    length_mm: z.number().nonnegative().describe('draw of the whole print as its file asks it'),
    print: z.exactOptional(printId),
    tool: z.exactOptional(z.int().nonnegative()),
    stopped_at: z
      .exactOptional(
        z
          .strictObject({
            layer: z.exactOptional(z.int().positive()).describe('the last layer it reached'),
            share: z.exactOptional(share).describe('share of the draw'),
            height_mm: z.exactOptional(z.number().nonnegative()),
          })
          .refine((one) => Object.keys(one).length === 1, 'one of layer, share and height_mm'),
      )
      .describe('where it ended before its end; finished unless given'),
    share: z
      .exactOptional(measuredJson.refine(({ value }) => value >= 0 && value <= 1, 'not 0 to 1'))
      .describe('share of the draw that was fed; 1 unless given'),
    layers: z
      .exactOptional(
        z
          .strictObject({
            after: z.exactOptional(z.int().positive()).describe('it took over once this was done'),
            to: z.exactOptional(z.int().positive()).describe('the last that it fed'),
          })
          .refine((one) => Object.keys(one).length > 0, 'one of after and to'),
      )
      .describe('what this reel fed of a print in which reels were changed'),
    timed: z
      .exactOptional(
        z.strictObject({
          took_s: mass.describe('from its start to its end'),
          planned_s: z.number().nonnegative().describe('moves and dwells as planned'),
          waits: z
            .record(z.string().max(40), z.int().positive())
            .describe('how often the printer waits, by kind'),
        }),
      )
      .describe('how long the whole print took; of a print with several reels said once'),
    accepted_off: moreThanHeld,
  })
  .meta({ id: 'drew', description: 'A print, or any length, was fed from a reel.' })

const trimmed = z
  .strictObject({
    kind: z.literal('trimmed'),
    ...common,
    reel,
    mass_g: z.exactOptional(notNegative),
    length_mm: z.exactOptional(notNegative),
    accepted_off: moreThanHeld,
  })
  .refine((one) => (one.mass_g === undefined) !== (one.length_mm === undefined), 'mass or length')
  .meta({ id: 'trimmed', description: 'Filament was cut off and thrown away.' })

const emptied = z
  .strictObject({ kind: z.literal('emptied'), ...common, reel })
  .meta({ id: 'emptied', description: 'What was left was taken off, unmeasured.' })

const ranDry = z
  .strictObject({
    kind: z.literal('ran-dry'),
    ...common,
    reel,
    tail_mm: z.exactOptional(notNegative).describe('what was left and could not be printed'),
    accepted_off: z
      .exactOptional(z.number())
      .describe('surprising by this many standard deviations, and taken all the same'),
  })
  .meta({ id: 'ran-dry', description: 'The reel ran out at the printer.' })

const measuredParts = [
  'calipers',
  'cut',
  'immersion',
  'density_g_per_cm3',
  'linear_density_g_per_m',
  'winding',
] as const

const measuredFact = z
  .strictObject({
    kind: z.literal('measured'),
    ...common,
    reel,
    calipers: z
      .exactOptional(
        z.strictObject({
          places_mm: z
            .array(z.tuple([mass, mass]))
            .min(1)
            .max(100),
          step_mm: z.exactOptional(mass).describe('smallest step of the display'),
          error_mm: z.exactOptional(mass).describe('standard uncertainty common to all readings'),
        }),
      )
      .describe('pairs of diameters, square to each other'),
    cut: z
      .exactOptional(z.strictObject({ length_mm: positive, weighing: weighingJson }))
      .describe('a piece cut off; `trimmed` takes it off the reel'),
    immersion: z
      .exactOptional(
        z.strictObject({
          in_air_g: positive,
          in_water_g: measuredJson,
          water_c: z.number().min(0).max(40),
        }),
      )
      .describe('a piece weighed in air and hung in water'),
    density_g_per_cm3: z.exactOptional(positive),
    linear_density_g_per_m: z.exactOptional(positive),
    winding: z
      .exactOptional(z.strictObject({ hub_mm: positive, outer_mm: positive, width_mm: positive }))
      .describe('diameters of hub and winding, width between the flanges'),
  })
  .refine((one) => measuredParts.some((part) => one[part] !== undefined), 'nothing measured')
  .meta({ id: 'measured_fact', description: "Something of a reel's filament was measured." })

const dataSheet = z
  .strictObject({
    kind: z.literal('data-sheet'),
    ...common,
    make: rowId,
    source: words.describe('which sheet'),
    density_g_per_cm3: z.exactOptional(positive),
    tare_g: z.exactOptional(positive),
  })
  .meta({ id: 'data-sheet', description: 'A maker states something of a make.' })

const dried = z
  .strictObject({
    kind: z.literal('dried'),
    ...common,
    reel,
    temperature_c: z.exactOptional(z.number().min(0).max(200)),
    hours: z.exactOptional(mass),
    remaining_share: z.exactOptional(notNegative).describe('water left over dry mass'),
  })
  .meta({ id: 'dried', description: 'A reel was dried.' })

const moved = z
  .strictObject({
    kind: z.literal('moved'),
    ...common,
    reel,
    place: words,
    air: z.exactOptional(z.enum(['room', 'dry'])).describe('the air it stands in from now on'),
  })
  .meta({ id: 'moved', description: 'A reel was put somewhere else.' })

const retired = z
  .strictObject({
    kind: z.literal('retired'),
    ...common,
    reel,
    reason: z.exactOptional(words),
  })
  .meta({ id: 'retired', description: 'A reel left the shelf.' })

const putRight = z
  .strictObject({
    kind: z.literal('put-right'),
    ...common,
    voids: factId.describe('the fact that does not hold'),
    reason: words,
    instead: z.exactOptional(factId).describe('the fact that holds in its place'),
  })
  .meta({ id: 'put-right', description: 'A fact is declared void.' })

/** Schema of `FactJson`. */
export const factJson: z.ZodType<FactJson> & z.core.$ZodTypeDiscriminable = z.discriminatedUnion(
  'kind',
  [
    opened,
    weighed,
    carrierWeighed,
    drew,
    trimmed,
    emptied,
    ranDry,
    measuredFact,
    dataSheet,
    dried,
    moved,
    retired,
    putRight,
  ],
)
