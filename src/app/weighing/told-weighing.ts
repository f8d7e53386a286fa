import type { WeighingTellJson } from '../../contract/index.ts'
import { accept, isDoubtStated, lastPlaceOf, type Outcome, parseMass } from '../../units/index.ts'
import { readScaleLine } from '../bench/read-scale-line.ts'
import { massInUnit, type ScaleUnit } from '../field/mass-in-unit.ts'
import { readMass } from '../field/read-in-unit.ts'
import { decimalMark } from '../field/refuse-dotted.ts'

/**
 * A weighing from what stands in the field: as a person types it, or as a scale that types like a
 * keyboard does. How fine it is shows in its figures, unless a doubt is stated.
 *
 * @param scale - id of the scale; left to the ledger where it is null
 * @param mark - the decimal mark of the person's language
 * @returns refusals as `readMass`
 */
export function toldWeighing(
  typed: string,
  unit: ScaleUnit,
  scale: string | null = null,
  mark: string = decimalMark,
): Outcome<WeighingTellJson> {
  const line = readScaleLine(typed)
  const text = line?.kind === 'weight' ? line.text : massInUnit(typed, unit)
  // A scale writes a point whatever the language is.
  const mass = line === null ? readMass(typed, unit, mark) : parseMass(text)
  if (!mass.ok) return mass
  const { value, u } = mass.value
  const finest = lastPlaceOf(text, parseMass)
  return accept({
    reading_g: value,
    ...(isDoubtStated(text) ? u > 0 && { u_g: u } : finest > 0 && { last_place_g: finest }),
    ...(scale !== null && { scale }),
  })
}
