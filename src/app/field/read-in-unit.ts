import {
  type Grams,
  type LengthUnit,
  type Measured,
  type Millimetres,
  type Outcome,
  parseLength,
  parseMass,
} from '../../units/index.ts'
import { massInUnit, type ScaleUnit } from './mass-in-unit.ts'
import { decimalMark, refuseDotted } from './refuse-dotted.ts'

/**
 * A mass as a person types it.
 *
 * @param unit - of a number without one
 * @param mark - the decimal mark of the person's language
 * @returns refusals as `parseMass` and `refuseDotted`
 */
export const readMass = (
  typed: string,
  unit: ScaleUnit,
  mark: string = decimalMark,
): Outcome<Measured<Grams>> => {
  const text = massInUnit(typed, unit)
  return refuseDotted(text, mark) ?? parseMass(text)
}

/**
 * A length as a person types it.
 *
 * @param bare - unit of a number without one
 * @param mark - the decimal mark of the person's language
 * @returns refusals as `parseLength` and `refuseDotted`
 */
export const readLength = (
  typed: string,
  bare: LengthUnit = 'mm',
  mark: string = decimalMark,
): Outcome<Measured<Millimetres>> => refuseDotted(typed, mark) ?? parseLength(typed, bare)
