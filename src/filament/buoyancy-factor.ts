import {
  DomainError,
  type GramsPerCubicCentimetre,
  type Measured,
  measured,
} from '../units/index.ts'

// g/cm³: air and weights to which scales are adjusted by convention (OIML D 28, from memory).
const air = 0.0012
const weights = 8

/**
 * True mass over what a scale shows, (1 − ρa/8)/(1 − ρa/ρ): a scale adjusted with weights of
 * 8 g/cm³ in air of 0.0012 g/cm³ shows plastic about 0.08 % too light. Needed only where a reading
 * meets a volume (density × cross-section); between two readings of the same filament it cancels.
 *
 * @param density - of what is weighed, g/cm³, above that of air
 * @returns the factor, first order
 * @throws DomainError `density_not_above_air`
 */
export const buoyancyFactor = (density: Measured<GramsPerCubicCentimetre>): Measured => {
  const { value: rho, u } = density
  if (!(rho > air))
    throw new DomainError('density_not_above_air', `${rho} g/cm³ would float in air`)
  const factor = (1 - air / weights) / (1 - air / rho)
  return measured(factor, ((factor * air) / (rho * (rho - air))) * u)
}
