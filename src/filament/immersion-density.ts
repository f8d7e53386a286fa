import {
  DomainError,
  type Grams,
  type GramsPerCubicCentimetre,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
} from '../units/index.ts'
import { requirePositive } from './require-positive.ts'

/**
 * Density by weighing a piece in air and hung in a liquid, ρ = a·ρL/(a − b). The buoyancy of the
 * air is left out: for ρ near 1.2 g/cm³ in water that is two parts in ten thousand.
 *
 * @param inAir - a, grams, > 0
 * @param inLiquid - b, grams, < a; negative where the piece floats and a sinker's own immersed
 *   reading was taken off
 * @param liquid - g/cm³, > 0, such as `waterDensity`
 * @returns g/cm³, first order, all three taken as independent
 * @throws DomainError `mass_not_positive`, `density_not_positive`, `not_lighter_in_liquid`
 * @see ISO 1183-1, method A
 */
export const immersionDensity = (
  inAir: Measured<Grams>,
  inLiquid: Measured<Grams>,
  liquid: Measured<GramsPerCubicCentimetre>,
): Measured<GramsPerCubicCentimetre> => {
  requirePositive(inAir, 'mass_not_positive')
  requirePositive(liquid, 'density_not_positive')
  const [a, b] = [inAir.value, inLiquid.value]
  const lift = a - b
  if (!(lift > 0)) {
    throw new DomainError(
      'not_lighter_in_liquid',
      `${b} g in the liquid is not less than ${a} g in air`,
    )
  }
  return measured(
    gramsPerCubicCentimetre((a * liquid.value) / lift),
    Math.hypot(
      ((liquid.value * b) / lift ** 2) * inAir.u,
      ((liquid.value * a) / lift ** 2) * inLiquid.u,
      (a / lift) * liquid.u,
    ),
  )
}
