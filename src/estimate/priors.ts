import { customaryPacking, type Source } from '../filament/index.ts'
import type { Measured } from '../units/index.ts'

/** What is believed of a quantity before anything is measured, and on whose word. */
export interface Prior extends Measured {
  readonly unit: 'g' | 'mm' | 'g/cm³' | 'd' | '1'
  readonly source: Source
}

/** Carriers a person can tell apart by looking. */
export type CarrierKind = 'plastic' | 'cardboard' | 'refill-core' | 'metal'

/** Tare of the carriers that usually hold a given net mass. */
export interface TareOfSize {
  /** Net mass on the label, g. */
  readonly label_g: number
  readonly tare: Prior
}

/**
 * Every prior of the estimate and the verdict. Data, editable: functions take a `Priors`, and
 * `defaultPriors` is only what stands where nobody knows better.
 */
export interface Priors {
  /** Tare where nothing is known of the carrier; ascending label, interpolated between. */
  readonly unknownTare: readonly TareOfSize[]
  /** Tare of a carrier of known kind that holds 1 kg; scaled with the label like `unknownTare`. */
  readonly carrierKinds: Readonly<Record<CarrierKind, Prior>>
  /** How far carriers of one make differ from each other. */
  readonly carrierOfOneMake: Prior
  /** Net mass at opening over the net mass on the label. */
  readonly overfill: Prior
  /** Net mass at opening where no label is known: wide. */
  readonly openingWithoutLabel: Prior
  /** Mass fed so far from a reel that is not new: so wide that it says nothing. */
  readonly fed: Prior
  /** Mean diameter of a reel over its nominal: a difference. */
  readonly diameterOffset: Prior
  /** Nominal diameter where none is given. */
  readonly nominalDiameter: Prior
  /** Density where not even the material is known. */
  readonly densityOfUnknownMaterial: Prior
  /** Density of a filled grade: so wide that only a measurement counts. */
  readonly densityOfFilledGrade: Prior
  /** How far filament lies off the density printed on its sheet, as a share of it. */
  readonly dataSheetOffset: Prior
  /** Linear density of one metre over that of its reel: a relative difference. */
  readonly metreAboutReel: Prior
  /** Linear density of one reel over the mean of its make: a relative difference. */
  readonly reelAboutMake: Prior
  /** Fraction of the winding's volume that is filament. */
  readonly packing: Prior
  /** What a printer feeds for each millimetre asked. */
  readonly feedFactor: Prior
  /** Filament used per print that is not in the file. */
  readonly startAllowance: Prior
  /** Last length that can not be printed. */
  readonly tail: Prior
}

const practice = (where: string): Source => ({ standing: 'common practice, no source', where })

const carriers = practice('what empty carriers on a bench weigh; a carrier in hand beats it')

/** @see docs/method/estimate.md, "Priors" */
export const defaultPriors: Priors = {
  unknownTare: [
    { label_g: 250, tare: { value: 130, u: 45, unit: 'g', source: carriers } },
    { label_g: 500, tare: { value: 180, u: 50, unit: 'g', source: carriers } },
    { label_g: 750, tare: { value: 220, u: 55, unit: 'g', source: carriers } },
    { label_g: 1000, tare: { value: 250, u: 60, unit: 'g', source: carriers } },
    { label_g: 2000, tare: { value: 380, u: 110, unit: 'g', source: carriers } },
    { label_g: 3000, tare: { value: 500, u: 160, unit: 'g', source: carriers } },
    { label_g: 5000, tare: { value: 750, u: 260, unit: 'g', source: carriers } },
    { label_g: 10_000, tare: { value: 1200, u: 450, unit: 'g', source: carriers } },
  ],
  carrierKinds: {
    plastic: { value: 235, u: 45, unit: 'g', source: carriers },
    cardboard: { value: 165, u: 35, unit: 'g', source: carriers },
    'refill-core': { value: 40, u: 25, unit: 'g', source: carriers },
    metal: { value: 350, u: 120, unit: 'g', source: carriers },
  },
  carrierOfOneMake: {
    value: 0,
    u: 4,
    unit: 'g',
    source: practice('moulded carriers of one make differ by some grams, cardboard by more'),
  },
  overfill: {
    value: 1.005,
    u: 0.015,
    unit: '1',
    source: practice('makers fill to the label or a little above'),
  },
  openingWithoutLabel: {
    value: 1000,
    u: 3000,
    unit: 'g',
    source: practice('reels hold from a quarter of a kilogram to ten; wide on purpose'),
  },
  fed: { value: 0, u: 30_000, unit: 'g', source: practice('flat on purpose: says nothing') },
  diameterOffset: {
    value: 0,
    u: 0.02,
    unit: 'mm',
    source: practice('customary tolerance of a reel, ±0.02 to ±0.05 mm, taken as uniform'),
  },
  nominalDiameter: {
    value: 1.75,
    u: 0,
    unit: 'mm',
    source: practice('the commoner of the two nominal diameters'),
  },
  densityOfUnknownMaterial: {
    value: 1.22,
    u: 0.08,
    unit: 'g/cm³',
    source: practice('most unfilled filament lies between 1.04 and 1.30'),
  },
  densityOfFilledGrade: {
    value: 1.5,
    u: 1,
    unit: 'g/cm³',
    source: practice('wide on purpose: a filled grade must be measured'),
  },
  dataSheetOffset: {
    value: 0,
    u: 0.01,
    unit: '1',
    source: practice('colour, moisture and voids against the bare resin of the sheet'),
  },
  metreAboutReel: {
    value: 0,
    u: 0.007,
    unit: '1',
    source: practice('the diameter drifts slowly along a reel'),
  },
  reelAboutMake: {
    value: 0,
    u: 0.01,
    unit: '1',
    source: practice('reels of one make differ less than makes do'),
  },
  packing: { ...customaryPacking, unit: '1' },
  feedFactor: {
    value: 1,
    u: 0.015,
    unit: '1',
    source: practice('a feeder adjusted once with a ruler'),
  },
  startAllowance: {
    value: 50,
    u: 80,
    unit: 'mm',
    source: practice('nothing, or a purge in a macro that the file does not show'),
  },
  tail: {
    value: 500,
    u: 250,
    unit: 'mm',
    source: practice('from feeder to hub, and what is anchored in the hub'),
  },
}

/**
 * Tare of a carrier about which only the size of the reel is known, g.
 *
 * @param label - g, > 0; beyond the table its ends hold
 */
export const unknownTareOf = (priors: Priors, label: number): Measured => {
  const table = priors.unknownTare
  const above = table.findIndex(({ label_g }) => label_g >= label)
  const upper = table[above < 0 ? table.length - 1 : above]!
  const lower = table[Math.max(0, above - 1)]!
  if (above <= 0 || upper.label_g === label) return { value: upper.tare.value, u: upper.tare.u }
  const share = (label - lower.label_g) / (upper.label_g - lower.label_g)
  const between = (a: number, b: number): number => a + share * (b - a)
  return {
    value: between(lower.tare.value, upper.tare.value),
    u: between(lower.tare.u, upper.tare.u),
  }
}

/**
 * Tare of a carrier of known kind, g, scaled with the size of the reel as unknown tares are.
 *
 * @param label - g, > 0
 */
export const tareOfKind = (priors: Priors, kind: CarrierKind, label: number): Measured => {
  const scale = unknownTareOf(priors, label).value / unknownTareOf(priors, 1000).value
  const { value, u } = priors.carrierKinds[kind]
  return { value: value * scale, u: u * scale }
}
