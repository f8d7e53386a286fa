import { defaultPriors } from '../estimate/index.ts'
import { crossSection, defaultDensity, findMaterial, linearDensity } from '../filament/index.ts'
import {
  accept,
  type GramsPerCubicCentimetre,
  type GramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type Outcome,
} from '../units/index.ts'

/** Filament as its label and sheet have it. */
export interface NominalFilament {
  readonly diameter: Measured<Millimetres>
  readonly density: Measured<GramsPerCubicCentimetre>
  readonly linearDensity: Measured<GramsPerMetre>
  /** As in "PLA, 1.24 g/cm³". */
  readonly name: string
}

/**
 * Filament from what is told of it, or undefined where neither material nor density is. Spreads that are
 * not told (u = 0) are the usual ones.
 *
 * @returns refusals as `findMaterial`, `defaultDensity`
 */
export const nominalFilament = (told: {
  readonly material?: string
  readonly density?: Measured<GramsPerCubicCentimetre>
  readonly diameter?: Measured<Millimetres>
}): Outcome<NominalFilament | undefined> => {
  const material = told.material === undefined ? undefined : findMaterial(told.material)
  if (material?.ok === false) return material
  const known = told.density ? accept(told.density) : material && defaultDensity(material.value)
  if (known === undefined) return accept(undefined)
  if (!known.ok) return known
  const { value, u } = known.value
  const density = measured(value, u > 0 ? u : value * defaultPriors.dataSheetOffset.u)
  const { nominalDiameter, diameterOffset } = defaultPriors
  const { diameter: typed = measured(millimetres(nominalDiameter.value)) } = told
  const diameter = measured(typed.value, typed.u > 0 ? typed.u : diameterOffset.u)
  return accept({
    diameter,
    density,
    linearDensity: linearDensity(density, crossSection(diameter)),
    name: `${material === undefined ? '' : `${material.value.name}, `}${value} g/cm³`,
  })
}

/** A mass that somebody stated for a print, and what it was computed with. */
export interface StatedMass {
  readonly mass_g: number
  readonly filament: NominalFilament
}

/** A stated mass was computed from length by nominal figures, and goes back by the same, mm. */
export const lengthOfStated = ({ mass_g, filament }: StatedMass): number =>
  (mass_g / filament.linearDensity.value) * 1000
