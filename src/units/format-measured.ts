import type { Measured } from './measured.ts'
import { DomainError } from './refusal.ts'
import { decimalText } from './round-decimal.ts'

const exactDigits = 6

/**
 * The decimal place to which a value with this uncertainty is printed: two significant digits of
 * the uncertainty where it begins with 1 or 2, one digit else.
 *
 * @param u - > 0
 * @see JCGM 100:2008, 7.2.6 (at most two significant digits)
 */
const placesOf = (u: number): number => {
  const [mantissa, exponent] = u.toExponential(1).split('e')
  return (Number(mantissa) < 3 ? 1 : 0) - Number(exponent)
}

/** Six significant digits and no trailing zeros, but whole units are never rounded away. */
const exactText = (value: number): string => {
  const magnitude = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)))
  const text = decimalText(value, Math.max(0, exactDigits - 1 - magnitude))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

/**
 * A value with its standard uncertainty, rounded to it: `172 ± 8 g`. An exact value (u = 0) stands
 * alone with up to six significant digits.
 *
 * @param unit - printed after a space
 * @throws DomainError `not_finite`, `uncertainty_negative`
 */
export const formatMeasured = ({ value, u }: Measured, unit: string): string => {
  if (!Number.isFinite(value) || !Number.isFinite(u)) {
    throw new DomainError('not_finite', `can not print ${value} ± ${u} ${unit}`)
  }
  if (u < 0) throw new DomainError('uncertainty_negative', `can not print ± ${u} ${unit}`)
  if (u === 0) return `${exactText(value)} ${unit}`
  const places = placesOf(u)
  return `${decimalText(value, places)} ± ${decimalText(u, places)} ${unit}`
}
