import { formatMeasured } from './format-measured.ts'
import type { Measured } from './measured.ts'
import type {
  Celsius,
  Grams,
  GramsPerCubicCentimetre,
  GramsPerMetre,
  Millimetres,
  Share,
} from './quantity.ts'

const scaled = ({ value, u }: Measured, divisor: number): Measured => ({
  value: value / divisor,
  u: u / divisor,
})

const reaches = ({ value, u }: Measured, size: number): boolean =>
  Math.max(Math.abs(value), u) >= size

/** `172 ± 8 g`; kilograms from 10 kg. @throws as `formatMeasured` */
export const formatMass = (mass: Measured<Grams>): string =>
  reaches(mass, 10_000) ? formatMeasured(scaled(mass, 1000), 'kg') : formatMeasured(mass, 'g')

/** `1.75 ± 0.03 mm`, `57.7 ± 2.5 m`; metres from 1 m. @throws as `formatMeasured` */
export const formatLength = (length: Measured<Millimetres>): string =>
  reaches(length, 1000) ? formatMeasured(scaled(length, 1000), 'm') : formatMeasured(length, 'mm')

/** `1.240 ± 0.012 g/cm³`. @throws as `formatMeasured` */
export const formatDensity = (density: Measured<GramsPerCubicCentimetre>): string =>
  formatMeasured(density, 'g/cm³')

/** `2.98 ± 0.05 g/m`. @throws as `formatMeasured` */
export const formatLinearDensity = (linearDensity: Measured<GramsPerMetre>): string =>
  formatMeasured(linearDensity, 'g/m')

/** `23.0 ± 0.5 °C`. @throws as `formatMeasured` */
export const formatTemperature = (temperature: Measured<Celsius>): string =>
  formatMeasured(temperature, '°C')

/** A share as percent, `15.0 ± 1.2 %`; for a chance use `formatChance`. @throws as `formatMeasured` */
export const formatShare = (part: Measured<Share>): string =>
  formatMeasured(scaled(part, 0.01), '%')
