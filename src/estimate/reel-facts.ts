import type { Caliper, Scale, Winding } from '../filament/index.ts'
import type {
  Grams,
  GramsPerCubicCentimetre,
  GramsPerMetre,
  Measured,
  Millimetres,
  Pair,
} from '../units/index.ts'
import type { CarrierKind } from './priors.ts'

/** One reading of a scale. */
export interface Weighing {
  /** As shown, g, > 0. */
  readonly reading: Grams
  /** Standard uncertainty of this reading where the person knows better than the scale's model. */
  readonly u?: number
  /** Known mass on the scale that is neither filament nor carrier: a holder, a bag; g, ≥ 0. */
  readonly extra?: Measured<Grams>
  /**
   * The scale used, where it is not the reel's usual one. Weighings with the same object share
   * its gain.
   */
  readonly scale?: Scale
}

/** What is known of the empty carrier. */
export type TareFact =
  /** An empty carrier put on a scale; `own` when it is this very carrier and not one like it. */
  | { readonly kind: 'weighed'; readonly weighing: Weighing; readonly own?: boolean }
  /** A figure somebody vouches for, g. */
  | { readonly kind: 'stated'; readonly tare: Measured<Grams> }
  | { readonly kind: 'looks-like'; readonly carrier: CarrierKind }

/** A piece cut off, measured with a ruler and weighed. */
export interface CutLength {
  /** mm, > 0. */
  readonly length: Measured<Millimetres>
  readonly weighing: Weighing
}

/** Diameters taken with calipers. */
export interface CaliperReadings {
  /** One pair, square to each other, for each place; at least one. */
  readonly places: readonly Pair[]
  /** The calipers; those of a bench unless given. */
  readonly caliper?: Caliper
}

/**
 * What a person knows of one reel, in any mixture. Everything is optional; what is missing is
 * taken from the priors and named as assumed.
 */
export interface ReelFacts {
  /** The reel on the scale now. */
  readonly grossNow?: Weighing
  /** The reel on the scale when it was new. */
  readonly grossWhenNew?: Weighing
  /** The usual scale; a kitchen scale unless given. */
  readonly scale?: Scale
  readonly tare?: TareFact
  /** Net mass on the label, g, > 0. */
  readonly labelNet?: Grams
  /** True when nothing has been fed from it yet. */
  readonly isNew?: boolean
  /** An id of the materials table. */
  readonly material?: string
  /** From a data sheet or an immersion, g/cm³; u = 0 takes the spread usual for data sheets. */
  readonly density?: Measured<GramsPerCubicCentimetre>
  /** 1.75 or 2.85 mm, say; u = 0 takes the spread usual for a reel. */
  readonly nominalDiameter?: Measured<Millimetres>
  readonly calipers?: CaliperReadings
  readonly cutLength?: CutLength
  /** g/m, where it is known directly. */
  readonly linearDensity?: Measured<GramsPerMetre>
  /** Size of the winding, for people without a scale. */
  readonly winding?: Winding
  /** Share of the winding that is filament, where better known than the prior. */
  readonly packing?: Measured
  /** Net mass somebody vouches for, g. */
  readonly statedNet?: Measured<Grams>
  /** Length on the reel somebody vouches for, mm. */
  readonly statedLength?: Measured<Millimetres>
}
