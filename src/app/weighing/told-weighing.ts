import type { WeighingTellJson } from '../../contract/index.ts'
import { accept, isDoubtStated, lastPlaceOf, type Outcome, parseMass } from '../../units/index.ts'
import { readScaleLine } from '../bench/read-scale-line.ts'
import { massInUnit, type ScaleUnit } from '../field/mass-in-unit.ts'

/**
 * A weighing from what stands in the field: as a person types it, or as a scale that types like a
 * keyboard does. How fine it is shows in its figures, unless a doubt is stated.
 *
 * @param scale - id of the scale; left to the ledger where it is null
 * @returns refusals as `parseMass`
 */
export function toldWeighing(
  typed: string,
  unit: ScaleUnit,
  scale: string | null = null,
): Outcome<WeighingTellJson> {
  const line = readScaleLine(typed)
  const text = line?.kind === 'weight' ? line.text : massInUnit(typed, unit)
  const mass = parseMass(text)
  if (!mass.ok) return mass
  const { value, u } = mass.value
  const finest = lastPlaceOf(text, parseMass)
  return accept({
    reading_g: value,
    ...(isDoubtStated(text) ? u > 0 && { u_g: u } : finest > 0 && { last_place_g: finest }),
    ...(scale !== null && { scale }),
  })
}
