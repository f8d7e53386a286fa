import {
  type Celsius,
  DomainError,
  type GramsPerCubicCentimetre,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
} from '../units/index.ts'

// °C, °C, °C², °C, g/cm³.
const a1 = -3.983035
const a2 = 301.797
const a3 = 522528.9
const a4 = 69.34881
const a5 = 0.99997495

/**
 * Density of pure water free of air, at 101 325 Pa.
 *
 * @param temperature - 0 to 40 °C
 * @returns g/cm³; u is that of the temperature, first order (0 at 4 °C, where the density turns);
 *   the formula's own is below 10⁻⁶ and left out
 * @throws DomainError `temperature_out_of_range`
 * @see Tanaka et al., Metrologia 38 (2001) 301–309, doi 10.1088/0026-1394/38/4/3
 */
export const waterDensity = ({
  value: t,
  u,
}: Measured<Celsius>): Measured<GramsPerCubicCentimetre> => {
  if (!(t >= 0 && t <= 40)) {
    throw new DomainError('temperature_out_of_range', `${t} °C is outside 0 to 40 °C`)
  }
  const [x, y, z] = [t + a1, t + a2, t + a4]
  const slope = (a5 / a3) * (x / z) * (2 * y + x - (x * y) / z)
  return measured(gramsPerCubicCentimetre(a5 * (1 - (x ** 2 * y) / (a3 * z))), Math.abs(slope) * u)
}
