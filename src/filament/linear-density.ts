import {
  type Grams,
  type GramsPerCubicCentimetre,
  type GramsPerMetre,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type SquareMillimetres,
} from '../units/index.ts'
import { requirePositive } from './require-positive.ts'

const millimetresPerMetre = 1000

/**
 * Linear density λ = ρ·A; 1 g/cm³ over 1 mm² is 1 g/m.
 *
 * @param density - g/cm³, > 0
 * @param area - mm², > 0
 * @returns g/m, first order, the two taken as independent
 * @throws DomainError `density_not_positive`, `area_not_positive`
 */
export const linearDensity = (
  density: Measured<GramsPerCubicCentimetre>,
  area: Measured<SquareMillimetres>,
): Measured<GramsPerMetre> => {
  requirePositive(density, 'density_not_positive')
  requirePositive(area, 'area_not_positive')
  return measured(
    gramsPerMetre(density.value * area.value),
    Math.hypot(area.value * density.u, density.value * area.u),
  )
}

/**
 * Mass of a length of filament, m = λ·L.
 *
 * @param length - mm, any sign (a retraction is negative)
 * @param perMetre - g/m, > 0
 * @returns grams, first order, the two taken as independent
 * @throws DomainError `linear_density_not_positive`
 */
export const massOfLength = (
  length: Measured<Millimetres>,
  perMetre: Measured<GramsPerMetre>,
): Measured<Grams> => {
  requirePositive(perMetre, 'linear_density_not_positive')
  return measured(
    grams((perMetre.value * length.value) / millimetresPerMetre),
    Math.hypot(perMetre.value * length.u, length.value * perMetre.u) / millimetresPerMetre,
  )
}

/**
 * Length of a mass of filament, L = m/λ.
 *
 * @param mass - grams, any sign (a shortage is negative)
 * @param perMetre - g/m, > 0
 * @returns millimetres, first order, the two taken as independent
 * @throws DomainError `linear_density_not_positive`
 */
export const lengthOfMass = (
  mass: Measured<Grams>,
  perMetre: Measured<GramsPerMetre>,
): Measured<Millimetres> => {
  requirePositive(perMetre, 'linear_density_not_positive')
  const length = (mass.value / perMetre.value) * millimetresPerMetre
  return measured(
    millimetres(length),
    Math.hypot(
      (mass.u / perMetre.value) * millimetresPerMetre,
      (length * perMetre.u) / perMetre.value,
    ),
  )
}

/**
 * Linear density from a piece cut off, measured and weighed, λ = m/L. Needs neither density nor
 * diameter, and so is the measurement for filled filament.
 *
 * @param mass - grams, > 0
 * @param length - mm, > 0
 * @returns g/m, first order, the two taken as independent
 * @throws DomainError `mass_not_positive`, `length_not_positive`
 */
export const linearDensityFromCutLength = (
  mass: Measured<Grams>,
  length: Measured<Millimetres>,
): Measured<GramsPerMetre> => {
  requirePositive(mass, 'mass_not_positive')
  requirePositive(length, 'length_not_positive')
  const value = (mass.value / length.value) * millimetresPerMetre
  return measured(
    gramsPerMetre(value),
    value * Math.hypot(mass.u / mass.value, length.u / length.value),
  )
}

/**
 * Density from a piece cut off, ρ = m/(L·A).
 *
 * @param mass - grams, > 0
 * @param length - mm, > 0
 * @param area - mm², > 0
 * @returns g/cm³, first order, all taken as independent
 * @throws DomainError `mass_not_positive`, `length_not_positive`, `area_not_positive`
 */
export const densityFromCutLength = (
  mass: Measured<Grams>,
  length: Measured<Millimetres>,
  area: Measured<SquareMillimetres>,
): Measured<GramsPerCubicCentimetre> => {
  requirePositive(area, 'area_not_positive')
  const perMetre = linearDensityFromCutLength(mass, length)
  const value = perMetre.value / area.value
  return measured(
    gramsPerCubicCentimetre(value),
    value * Math.hypot(perMetre.u / perMetre.value, area.u / area.value),
  )
}
