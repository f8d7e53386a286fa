import {
  accept,
  type GramsPerCubicCentimetre,
  type Measured,
  type Outcome,
  refuse,
} from '../units/index.ts'
import type { Source } from './source.ts'

/** Lowest and highest figure found, the same twice where there is one. */
export type Range = readonly [low: number, high: number]

/** Water a material takes up, as a share of its dry mass. */
export interface WaterUptake {
  readonly condition: '24 h in water' | 'saturated in water' | 'at rest in air of 50 % humidity'
  /** Share of the dry mass, at 20 to 23 °C. */
  readonly share: Range
  readonly source: Source
}

/** How moulders dry the pellets of a material; a guide for filament, not a recipe. */
export interface Drying {
  /** °C. Wound filament may soften on its reel, and the carrier sooner still, below these. */
  readonly celsius: Range
  readonly hours: Range
  readonly source: Source
}

/** A kind of filament, by what it is made of. */
export interface Material {
  /** Lower case, words joined by hyphens; never changes. */
  readonly id: string
  readonly name: string
  /** Other things people call it. */
  readonly aliases: readonly string[]
  /**
   * g/cm³, where u is the spread between makers and sources. Absent for filled grades, whose
   * density depends on how much of what is in them.
   */
  readonly density?: Measured<GramsPerCubicCentimetre>
  readonly densitySource: Source
  readonly waterUptake: readonly WaterUptake[]
  /** Absent where no figure was found. */
  readonly drying?: Drying
  /** True where moulders dry it before melting as a matter of course, or water spoils it. */
  readonly hygroscopic: boolean
  /** What can hurt people or the print, beside `dryingCautions`; common practice, no source. */
  readonly caution: string
}

/**
 * The density to start from when nothing was measured.
 *
 * @returns g/cm³, or the refusal `density_not_known` for a filled grade, saying what to measure
 */
export const defaultDensity = (material: Material): Outcome<Measured<GramsPerCubicCentimetre>> =>
  material.density
    ? accept(material.density)
    : refuse({
        code: 'density_not_known',
        message: `${material.name} has no usual density: it depends on how much filler is in it. Cut a metre, weigh it and give grams per metre, or weigh a piece in air and in water.`,
        expected: 'a measured linear density or density',
        received: material.id,
      })

/** Holds for drying any filament. Shown with every drying figure. */
export const dryingCautions: readonly string[] = [
  'Go by the maker’s sheet for this filament first; figures told of a material are for loose pellets.',
  'Stay below what the reel’s carrier stands: many carriers soften long before the filament dries.',
  'Surfaces, filament and carrier come out hot enough to burn. Let them cool.',
  'Warm plastic gives off fumes. Dry where the room is aired, and never in an oven used for food.',
  'Ovens overshoot. Do not leave one unattended with filament in it, and keep what burns away from it.',
  'Follow local rules on heating appliances and fire; leave mains wiring to people licensed for it.',
]
