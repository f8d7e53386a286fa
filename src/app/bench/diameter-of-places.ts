import { benchCaliper, crossSectionOfPlaces } from '../../filament/index.ts'
import {
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type Pair,
} from '../../units/index.ts'

/** The diameter of round filament of the same mean cross-section, mm; null without a place. */
export function diameterOfPlaces(places: readonly Pair[]): Measured<Millimetres> | null {
  if (places.length === 0) return null
  const area = crossSectionOfPlaces(places, benchCaliper)
  const diameter = Math.sqrt((4 * area.value) / Math.PI)
  return measured(millimetres(diameter), area.u / ((Math.PI / 2) * diameter))
}
