import type { WeighingTold } from '../service/index.ts'
import { isDoubtStated, lastPlaceOf, parseMass, withTypedDoubt } from '../units/index.ts'
import { taken } from './taken.ts'

/** Beside the reading itself. */
export interface WeighingText {
  readonly extra?: string
  readonly scale?: string
}

/**
 * A weighing from what was typed. How fine it is shows in its figures, unless a doubt is stated.
 *
 * @throws Fault of wrong usage
 */
export const parseWeighing = (
  typed: string,
  { extra, scale }: WeighingText,
  option: string,
): WeighingTold => {
  const { value, u } = taken(parseMass(typed), option)
  return {
    reading_g: value,
    ...(isDoubtStated(typed)
      ? u > 0 && { u_g: u }
      : { lastPlace_g: lastPlaceOf(typed, parseMass) }),
    ...(extra !== undefined && { extra_g: parseExtra(extra) }),
    ...(scale !== undefined && { scale }),
  }
}

/**
 * What else stood on the scale.
 *
 * @throws Fault of wrong usage
 */
export const parseExtra = (typed: string): { readonly value: number; readonly u: number } => {
  const { value, u } = taken(withTypedDoubt(typed, parseMass), '--extra')
  return { value, u }
}
