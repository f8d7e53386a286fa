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

/** One maker's product line in one material on one carrier. */
export interface ShelfMake {
  readonly id: string
  /** An id of the materials table, or any id where `density` is given; unknown unless given. */
  readonly material?: string
  /**
   * Mean density, g/cm³, of a material of one's own or in place of the table's; u = 0 takes the
   * spread usual for data sheets.
   */
  readonly density?: Measured<GramsPerCubicCentimetre>
  /**
   * Water over dry mass at rest in room air, of a material of one's own or in place of the table's;
   * u = 0 takes the spread usual for rooms. 0 for a material that takes up none.
   */
  readonly waterAtRest?: Measured
  /**
   * Whether its water is reckoned with: false, never; true, however little it is, and without a
   * figure as much as is usual. Where the figure is large enough unless given.
   */
  readonly hygroscopic?: boolean
  /** 1.75 mm unless given; u is not used, see `diameterOffset`. */
  readonly nominalDiameter?: Millimetres
  /** Net mass on the label, for the size of the carrier; 1000 g unless given. */
  readonly labelNet?: Grams
  /** What the carrier looks like. */
  readonly carrier?: CarrierKind
}

/** A printer; what it feeds and wastes is learnt, from the priors given here or the usual ones. */
export interface ShelfPrinter {
  readonly id: string
  /** Its mean feed factor. */
  readonly feedFactor?: Measured
  /** Its mean start allowance, mm. */
  readonly startAllowance?: Measured<Millimetres>
}

/** A scale on the bench. */
export interface ShelfScale {
  readonly id: string
  readonly scale: Scale
}

/** A reel on the shelf. */
export interface ShelfReel {
  readonly id: string
  /** Id of its make. */
  readonly make: string
}

/** Everything that facts speak of, by id; ids are distinct within each list. */
export interface ShelfCatalogue {
  readonly makes: readonly ShelfMake[]
  readonly printers: readonly ShelfPrinter[]
  readonly scales: readonly ShelfScale[]
  readonly reels: readonly ShelfReel[]
}

/** What every fact has. */
interface Dated {
  readonly id: string
  /**
   * Days, from any beginning; facts of equal time stand in the order given. Where no material takes
   * up water only the order counts.
   */
  readonly at: number
}

/** Something put on a scale, g. */
export interface ShelfWeighing {
  /** Id of the scale. */
  readonly scale: string
  /** As shown, g. */
  readonly reading: Grams
  /** Standard uncertainty of this reading, > 0, where better known than by the scale's model. */
  readonly u?: number
  /** Known mass on the scale that is neither filament nor carrier, g. */
  readonly extra?: Measured<Grams>
}

/** A reel was opened; it comes first of the reel's facts. */
export interface ReelOpened extends Dated {
  readonly kind: 'opened'
  readonly reel: string
  /** Net mass on the label, g, > 0; without it the opening mass is unknown. */
  readonly labelNet?: Grams
  readonly grossWhenNew?: ShelfWeighing
  /**
   * True when some of it had been fed before: label and `grossWhenNew` are then of what was on it when it
   * was new, and anything up to that label is gone.
   */
  readonly partUsed?: boolean
}

/** A reel put on a scale. */
export interface ReelWeighed extends Dated, ShelfWeighing {
  readonly kind: 'weighed'
  readonly reel: string
  /** What was on the reel changed by an unknown mass before it: its history tells nothing of the net. */
  readonly afterUnrecorded?: true
}

/** An empty carrier of a make put on a scale; with `reel`, that very reel's carrier. */
export interface CarrierWeighed extends Dated, ShelfWeighing {
  readonly kind: 'carrier-weighed'
  readonly make: string
  readonly reel?: string
}

/** A print, or any length fed by a printer. */
export interface ReelDrew extends Dated {
  readonly kind: 'drew'
  readonly reel: string
  readonly printer: string
  /** The draw of the whole print as asked by its file, mm, ≥ 0. */
  readonly length: Millimetres
  /** Share of the draw that was fed, 0 to 1; 1 when finished, which it is unless given. */
  readonly share?: Measured
  /** It took more than there can have been: the next reading of the net is as of a weighing so marked. */
  readonly afterUnrecorded?: true
}

/** Filament cut off and thrown away, by mass (g, with the water in it) or by length (mm). */
export interface ReelTrimmed extends Dated {
  readonly kind: 'trimmed'
  readonly reel: string
  readonly mass?: Measured<Grams>
  readonly length?: Measured<Millimetres>
  /** As of a draw. */
  readonly afterUnrecorded?: true
}

/** The reel ran out: what is left on it is the tail. */
export interface ReelRanDry extends Dated {
  readonly kind: 'ran-dry'
  readonly reel: string
  /** mm; the usual tail unless given. */
  readonly tail?: Measured<Millimetres>
  /** As of a weighing. */
  readonly afterUnrecorded?: true
}

/**
 * What was left was taken off, unmeasured: from then on the net is 0, and nothing is said of what it
 * was before. A weighing after it sees the carrier alone.
 */
export interface ReelEmptied extends Dated {
  readonly kind: 'emptied'
  readonly reel: string
}

/** What surrounds a reel: the air of a room, or that of a box with something in it that dries. */
export type Air = 'room' | 'dry'

/** A reel was dried; the time is that of its having cooled. */
export interface ReelDried extends Dated {
  readonly kind: 'dried'
  readonly reel: string
  /** Water over dry mass that is left in it, 0 to 1; as usual unless given, and so its spread if u = 0. */
  readonly remaining?: Measured
}

/** A reel was put into other air; it is in room air until then. */
export interface ReelMoved extends Dated {
  readonly kind: 'moved'
  readonly reel: string
  readonly air: Air
}

/** Anything measured of a reel's filament; every part given is taken. */
export interface ReelMeasured extends Dated {
  readonly kind: 'measured'
  readonly reel: string
  /** One pair of diameters, mm, square to each other, for each place. */
  readonly calipers?: { readonly places: readonly Pair[]; readonly caliper?: Caliper }
  /** A piece cut off, measured and weighed; it is taken off the reel by a `trimmed` of its own. */
  readonly cutLength?: { readonly length: Measured<Millimetres>; readonly weighing: ShelfWeighing }
  /** By immersion, say; of the dry material, u > 0. */
  readonly density?: Measured<GramsPerCubicCentimetre>
  /** Of the dry filament, u > 0. */
  readonly linearDensity?: Measured<GramsPerMetre>
  /** Diameters of hub and winding and width between the flanges, mm, u > 0 for one of them. */
  readonly winding?: Winding
}

/** What a maker states of a make. */
export interface MakeSheet extends Dated {
  readonly kind: 'data-sheet'
  readonly make: string
  /** u = 0 takes the spread usual for data sheets. */
  readonly density?: Measured<GramsPerCubicCentimetre>
  /** Tare of its carriers, u > 0. */
  readonly tare?: Measured<Grams>
}

/** One fact of the ledger that the estimate reckons with. Voided facts are left out. */
export type ShelfFact =
  | ReelOpened
  | ReelWeighed
  | CarrierWeighed
  | ReelDrew
  | ReelTrimmed
  | ReelRanDry
  | ReelEmptied
  | ReelDried
  | ReelMoved
  | ReelMeasured
  | MakeSheet
