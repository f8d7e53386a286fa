import {
  DomainError,
  type GramsPerCubicCentimetre,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  type Share,
} from '../units/index.ts'
import { requirePositive } from './require-positive.ts'

/** One filler: its share of the mass and its density. */
export interface Filler {
  readonly share: Measured<Share>
  readonly density: Measured<GramsPerCubicCentimetre>
}

/**
 * Density of a filled material without voids: specific volumes add by mass, 1/ρ = Σ wᵢ/ρᵢ, the
 * matrix taking what the fillers leave. Real filled filament holds voids and is lighter, wood by
 * far: this is a bound to reason with, not a stand-in for a weighed length.
 *
 * @param matrix - g/cm³, > 0
 * @param fillers - shares ≥ 0, together ≤ 1; densities > 0
 * @returns g/cm³, first order, all taken as independent
 * @throws DomainError `density_not_positive`, `share_out_of_range`
 * @see ASTM D2734 (from memory): the density a void content is reckoned against
 */
export const filledDensity = (
  matrix: Measured<GramsPerCubicCentimetre>,
  fillers: readonly Filler[],
): Measured<GramsPerCubicCentimetre> => {
  requirePositive(matrix, 'density_not_positive')
  let matrixShare = 1
  let volume = 0
  let variance = 0
  for (const { share, density } of fillers) {
    requirePositive(density, 'density_not_positive')
    if (!(share.value >= 0))
      throw new DomainError('share_out_of_range', `${share.value} is no share`)
    matrixShare -= share.value
    volume += share.value / density.value
    variance += (share.u * (1 / density.value - 1 / matrix.value)) ** 2
    variance += ((share.value * density.u) / density.value ** 2) ** 2
  }
  if (matrixShare < -1e-12) {
    throw new DomainError('share_out_of_range', `fillers make up ${1 - matrixShare} of the whole`)
  }
  volume += matrixShare / matrix.value
  variance += ((matrixShare * matrix.u) / matrix.value ** 2) ** 2
  return measured(gramsPerCubicCentimetre(1 / volume), Math.sqrt(variance) / volume ** 2)
}
