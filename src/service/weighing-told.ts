import type { MeasuredJson, ScaleRowJson, WeighingJson } from '../contract/index.ts'
import { readingVariance } from '../filament/index.ts'
import { grams } from '../units/index.ts'

/** A weighing as a person tells it. */
export interface WeighingTold {
  readonly reading_g: number
  /** Its standard uncertainty, where stated. */
  readonly u_g?: number
  /** One unit in the last place told, g; coarser than the scale's step, the reading was rounded. */
  readonly lastPlace_g?: number
  /** What else stood on the scale. */
  readonly extra_g?: MeasuredJson
  /** Name or id of the scale. */
  readonly scale?: string
}

/** The weighing as it is kept. A reading with fewer figures than the scale shows is a rounded one. */
export const weighingOf = (
  { reading_g, u_g, lastPlace_g = 0, extra_g }: WeighingTold,
  { id, step_g, repeatability_g }: Pick<ScaleRowJson, 'id' | 'step_g' | 'repeatability_g'>,
): WeighingJson => {
  const u = u_g ?? (lastPlace_g > step_g ? roundedU(lastPlace_g, repeatability_g) : undefined)
  return {
    scale: id,
    reading_g,
    ...(u !== undefined && u > 0 && { u_g: u }),
    ...(extra_g && { extra_g }),
  }
}

const roundedU = (step: number, repeatability: number): number =>
  Math.sqrt(readingVariance({ displayStep: grams(step), repeatability: grams(repeatability) }))
