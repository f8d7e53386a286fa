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
  const also = extra === undefined ? undefined : taken(withTypedDoubt(extra, parseMass), '--extra')
  return {
    reading_g: value,
    ...(isDoubtStated(typed)
      ? u > 0 && { u_g: u }
      : { lastPlace_g: lastPlaceOf(typed, parseMass) }),
    ...(also && { extra_g: { value: also.value, u: also.u } }),
    ...(scale !== undefined && { scale }),
  }
}
