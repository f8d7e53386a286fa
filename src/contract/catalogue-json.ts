import { z } from 'zod'
import { moment, rowId, words } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import type { RowCommonJson } from './row-common-json.ts'
import { type RunningRowJson, runningRowJson } from './running-json.ts'
import {
  type PlanRowJson,
  planRowJson,
  type WaitingRowJson,
  waitingRowJson,
} from './waiting-json.ts'

/** A material of the person's own, beside those of the built-in table. */
export interface MaterialRowJson extends RowCommonJson {
  readonly kind: 'material'
  readonly name: string
  readonly density_g_per_cm3?: MeasuredJson
  /** Water over dry mass at rest in room air; takes up none unless given. */
  readonly water_share?: MeasuredJson
}

export interface MakeRowJson extends RowCommonJson {
  readonly kind: 'make'
  readonly maker: string
  readonly name: string
  /** Id of the built-in table, or of a material row; unknown unless given. */
  readonly material?: string
  readonly nominal_diameter_mm?: number
  readonly label_net_g?: number
  readonly carrier?: 'plastic' | 'cardboard' | 'refill-core' | 'metal'
}

/** What is known of how a printer moves; the rest is its firmware's default. X, Y, Z, feeder. */
export interface MotionJson {
  readonly max_feed_mm_per_s?: readonly [number, number, number, number]
  readonly max_accel_mm_per_s2?: readonly [number, number, number, number]
  readonly print_accel_mm_per_s2?: number
  readonly travel_accel_mm_per_s2?: number
  readonly retract_accel_mm_per_s2?: number
  readonly corner?: 'jerk' | 'junction-deviation' | 'square-corner'
  readonly jerk_mm_per_s?: readonly [number, number, number, number]
  readonly junction_deviation_mm?: number
  readonly square_corner_mm_per_s?: number
  readonly minimum_cruise?: number
}

export interface PrinterRowJson extends RowCommonJson {
  readonly kind: 'printer'
  readonly name: string
  /** Id of a firmware family. */
  readonly firmware?: string
  readonly feed_factor?: MeasuredJson
  readonly start_allowance_mm?: MeasuredJson
  readonly tail_mm?: MeasuredJson
  /** What a planned change takes of the reel that comes in, mm. */
  readonly change_mm?: MeasuredJson
  readonly motion?: MotionJson
  readonly retired?: true
}

export interface ScaleRowJson extends RowCommonJson {
  readonly kind: 'scale'
  readonly name: string
  readonly step_g: number
  readonly repeatability_g: number
  /** Standard uncertainty of its slope, as a share of the load. */
  readonly gain: number
  readonly retired?: true
}

export interface PersonRowJson extends RowCommonJson {
  readonly kind: 'person'
  readonly name: string
}

/** What this shelf believes beforehand, where it differs from the defaults. */
export interface PriorsRowJson extends Omit<RowCommonJson, 'id'> {
  readonly kind: 'priors'
  readonly id: 'priors'
  /** By the names of docs/method/shelf.md, as `feedFactor` or `carrierKinds.plastic`. */
  readonly priors: Readonly<Record<string, MeasuredJson>>
}

/** One row of the catalogue. */
export type CatalogueRowJson =
  | MaterialRowJson
  | MakeRowJson
  | PrinterRowJson
  | ScaleRowJson
  | PersonRowJson
  | PriorsRowJson
  | WaitingRowJson
  | PlanRowJson
  | RunningRowJson

const common = {
  id: rowId,
  changed_at: moment.describe('the row changed last holds'),
  note: z.exactOptional(words),
}
const retired = z.exactOptional(z.literal(true)).describe('no longer in use')
const positive = measuredJson.refine(({ value }) => value > 0, 'not above 0')
const notNegative = measuredJson.refine(({ value }) => value >= 0, 'below 0')

const above = z.number().positive()
const axes = z.tuple([above, above, above, above])

const motion: z.ZodType<MotionJson> = z
  .strictObject({
    max_feed_mm_per_s: z.exactOptional(axes),
    max_accel_mm_per_s2: z.exactOptional(axes),
    print_accel_mm_per_s2: z.exactOptional(above),
    travel_accel_mm_per_s2: z.exactOptional(above),
    retract_accel_mm_per_s2: z.exactOptional(above),
    corner: z.exactOptional(z.enum(['jerk', 'junction-deviation', 'square-corner'])),
    jerk_mm_per_s: z.exactOptional(axes),
    junction_deviation_mm: z.exactOptional(above),
    square_corner_mm_per_s: z.exactOptional(above),
    minimum_cruise: z.exactOptional(z.number().min(0).lt(1)).describe('share of a move'),
  })
  .meta({ id: 'motion', description: 'What a printer may do; four values are X, Y, Z, feeder.' })

/** What a row of each kind that a person names has, beside what the ledger gives it. */
const rowParts = {
  material: {
    note: common.note,
    name: words,
    density_g_per_cm3: z.exactOptional(positive),
    water_share: z
      .exactOptional(notNegative)
      .describe('water over dry mass at rest in room air; none unless given'),
  },
  make: {
    note: common.note,
    maker: words,
    name: words,
    material: z.exactOptional(words).describe('of the built-in table, or a material row’s id'),
    nominal_diameter_mm: z.exactOptional(z.number().positive()),
    label_net_g: z.exactOptional(z.number().positive()),
    carrier: z.exactOptional(z.enum(['plastic', 'cardboard', 'refill-core', 'metal'])),
  },
  printer: {
    note: common.note,
    name: words,
    firmware: z.exactOptional(words).describe('firmware family'),
    feed_factor: z.exactOptional(positive),
    start_allowance_mm: z.exactOptional(notNegative),
    tail_mm: z.exactOptional(notNegative),
    change_mm: z
      .exactOptional(notNegative)
      .describe('taken by a planned change from the reel that comes in'),
    motion: z.exactOptional(motion).describe('as far as it is known'),
    retired,
  },
  scale: {
    note: common.note,
    name: words,
    step_g: z.number().positive().describe('smallest step of the display'),
    repeatability_g: z.number().nonnegative().describe('beside the rounding'),
    gain: z.number().nonnegative().describe('uncertainty of its slope, a share of the load'),
    retired,
  },
  person: { note: common.note, name: words },
} as const

const { id, changed_at } = common

/** Schema of `CatalogueRowJson`. */
export const catalogueRowJson: z.ZodType<CatalogueRowJson> & z.core.$ZodTypeDiscriminable =
  z.discriminatedUnion('kind', [
    z
      .strictObject({ kind: z.literal('material'), id, changed_at, ...rowParts.material })
      .meta({ id: 'material', description: 'A material of the person’s own.' }),
    z.strictObject({ kind: z.literal('make'), id, changed_at, ...rowParts.make }).meta({
      id: 'make',
      description: 'One maker’s product line in one material on one carrier.',
    }),
    z
      .strictObject({ kind: z.literal('printer'), id, changed_at, ...rowParts.printer })
      .meta({ id: 'printer', description: 'A printer, and what is believed of it beforehand.' }),
    z
      .strictObject({ kind: z.literal('scale'), id, changed_at, ...rowParts.scale })
      .meta({ id: 'scale', description: 'A scale on the bench.' }),
    z
      .strictObject({ kind: z.literal('person'), id, changed_at, ...rowParts.person })
      .meta({ id: 'person', description: 'Somebody who writes facts down.' }),
    z
      .strictObject({
        kind: z.literal('priors'),
        id: z.literal('priors'),
        changed_at: common.changed_at,
        note: common.note,
        priors: z.record(z.string().max(60), measuredJson),
      })
      .meta({ id: 'priors', description: 'What this shelf believes beforehand.' }),
    waitingRowJson,
    planRowJson,
    runningRowJson,
  ])

/** Kinds of rows that a person names. */
export type NamedRowKind = 'material' | 'make' | 'printer' | 'scale' | 'person'

/** Keys of a catalogue row, as in the ledger format; id, kind and moment are the ledger's. */
export type RowRequest = Readonly<Record<string, unknown>> & { readonly name?: string }

const { step_g, repeatability_g, gain, ...scaleParts } = rowParts.scale

/** What can be told of a new row, as a person knows it. */
const told: Readonly<Record<NamedRowKind, z.core.$ZodLooseShape>> = {
  material: rowParts.material,
  make: {
    ...rowParts.make,
    material: z.exactOptional(words).describe('of the built-in table, or a material’s name or id'),
  },
  printer: {
    ...rowParts.printer,
    motion_report: z
      .exactOptional(z.string().min(1).max(1_000_000))
      .describe(
        'its answer to M503, or its configuration, as text: what that tells of its motion, in the place of `motion`',
      ),
  },
  scale: {
    ...scaleParts,
    class: z
      .exactOptional(z.enum(['I', 'II', 'III', 'IIII']))
      .describe('accuracy class of a verified scale; it needs `step_g` and nothing more'),
    step_g: z
      .exactOptional(step_g)
      .describe(
        'smallest step of the display; 1 unless given; a repeatability that nobody told is half of it',
      ),
    repeatability_g: z
      .exactOptional(repeatability_g)
      .describe('beside the rounding; half the step unless given'),
    gain: z
      .exactOptional(gain)
      .describe('uncertainty of its slope, a share of the load; a kitchen scale’s unless given'),
  },
  person: rowParts.person,
}

/** Whether a row may be without it: only that can be taken away. */
const canLack = (kind: NamedRowKind, key: string): boolean =>
  (rowParts[kind] as Readonly<Record<string, unknown>>)[key] instanceof z.ZodExactOptional

const changing = (schema: z.ZodType, isNullable: boolean): z.ZodType => {
  const plain = schema instanceof z.ZodExactOptional ? (schema.unwrap() as z.ZodType) : schema
  return z.exactOptional(isNullable ? plain.nullable() : plain).describe(schema.description ?? '')
}

const kinds = Object.keys(told) as readonly NamedRowKind[]

type OfEachKind = Readonly<Record<NamedRowKind, z.ZodType<RowRequest>>>

const ofEachKind = (schemaOf: (kind: NamedRowKind) => z.ZodType<RowRequest>): OfEachKind =>
  Object.fromEntries(kinds.map((kind) => [kind, schemaOf(kind)])) as OfEachKind

/** Schemas of a new row of each kind. */
export const newRowRequest: OfEachKind = ofEachKind((kind) =>
  z
    .strictObject(told[kind])
    .meta({ id: `${kind}_request`, description: `What is known of a new ${kind}.` }),
)

/** Schemas of what changes of a row of each kind: what is not told stays. */
export const rowChangeRequest: OfEachKind = ofEachKind((kind) =>
  z
    .strictObject(
      Object.fromEntries(
        Object.entries(told[kind] as Readonly<Record<string, z.ZodType>>).map(([key, schema]) => [
          key,
          changing(schema, canLack(kind, key)),
        ]),
      ),
    )
    .meta({
      id: `${kind}_change_request`,
      description: `What changes of a ${kind}; null is not known any more.`,
    }),
)
