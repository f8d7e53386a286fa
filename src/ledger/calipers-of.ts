import type { MeasuredFactJson } from '../contract/index.ts'
import type { ReelFacts } from '../estimate/index.ts'
import { benchCaliper, type Caliper } from '../filament/index.ts'
import { measured, millimetres } from '../units/index.ts'

/**
 * Caliper readings as the estimate takes them.
 *
 * @param u - standard uncertainty stated with the readings, mm
 */
export const calipersOf = (
  { places_mm, step_mm, error_mm }: NonNullable<MeasuredFactJson['calipers']>,
  u = 0,
): NonNullable<ReelFacts['calipers']> => {
  const places = places_mm.map(
    ([a, b]) => [measured(millimetres(a), u), measured(millimetres(b), u)] as const,
  )
  if (step_mm === undefined && error_mm === undefined) return { places }
  const caliper: Caliper = {
    step: millimetres(step_mm ?? benchCaliper.step),
    error: millimetres(error_mm ?? benchCaliper.error),
    source: { standing: 'read', where: 'as told beside the readings' },
  }
  return { places, caliper }
}
