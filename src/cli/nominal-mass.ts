import { defaultPriors } from '../estimate/index.ts'
import { crossSection, defaultDensity, findMaterial, linearDensity } from '../filament/index.ts'
import {
  type GramsPerCubicCentimetre,
  type GramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  parseDensity,
  parseLength,
} from '../units/index.ts'
import { taken } from './taken.ts'

/** Filament as its label and sheet have it. */
export interface NominalFilament {
  readonly diameter: Measured<Millimetres>
  readonly density: Measured<GramsPerCubicCentimetre>
  readonly linearDensity: Measured<GramsPerMetre>
  /** As in "PLA, 1.24 g/cm³". */
  readonly name: string
}

/**
 * Filament from what was typed of it, or undefined where neither material nor density was told.
 * Spreads that are not told are the usual ones.
 *
 * @throws Fault of wrong usage
 */
export const nominalFilament = (typed: {
  readonly material?: string | undefined
  readonly density?: string | undefined
  readonly diameter?: string | undefined
}): NominalFilament | undefined => {
  const material =
    typed.material === undefined ? undefined : taken(findMaterial(typed.material), '--material')
  const given =
    typed.density === undefined ? undefined : taken(parseDensity(typed.density), '--density')
  if (material === undefined && given === undefined) return undefined
  const told = given ?? taken(defaultDensity(material!), '--material')
  const density = measured(
    told.value,
    told.u > 0 ? told.u : told.value * defaultPriors.dataSheetOffset.u,
  )
  const typedDiameter =
    typed.diameter === undefined
      ? measured(millimetres(defaultPriors.nominalDiameter.value))
      : taken(parseLength(typed.diameter), '--diameter')
  const diameter = measured(
    typedDiameter.value,
    typedDiameter.u > 0 ? typedDiameter.u : defaultPriors.diameterOffset.u,
  )
  return {
    diameter,
    density,
    linearDensity: linearDensity(density, crossSection(diameter)),
    name: `${material === undefined ? '' : `${material.name}, `}${density.value} g/cm³`,
  }
}
