import {
  filamentDensity,
  type NominalFilament,
  nominalFilament as nominal,
} from '../service/index.ts'
import {
  type GramsPerCubicCentimetre,
  type Measured,
  parseDensity,
  parseLength,
} from '../units/index.ts'
import { taken } from './taken.ts'

/**
 * Filament from what was typed of it, or undefined where neither material nor density was.
 *
 * @throws Fault of wrong usage
 */
export const nominalFilament = ({
  material,
  density,
  diameter,
}: {
  readonly material?: string | undefined
  readonly density?: string | undefined
  readonly diameter?: string | undefined
}): NominalFilament | undefined =>
  taken(
    nominal({
      ...(material !== undefined && { material }),
      ...(density !== undefined && { density: densityOf(density) }),
      ...(diameter !== undefined && { diameter: taken(parseLength(diameter), '--diameter') }),
    }),
    '--material',
  )

const densityOf = (typed: string): Measured<GramsPerCubicCentimetre> => {
  const density = taken(parseDensity(typed), '--density')
  taken(filamentDensity(density.value), '--density')
  return density
}
