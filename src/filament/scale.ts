import { type Grams, grams } from '../units/index.ts'
import type { Source } from './source.ts'

/** How far a scale may be off: what differs from reading to reading, and what does not. */
export interface Scale {
  /** Smallest step of the display. */
  readonly displayStep: Grams
  /** Standard deviation of the same load put on again and again, beside the rounding. */
  readonly repeatability: Grams
  /** Standard uncertainty of its slope, as a share of the load; the same at every weighing. */
  readonly gain: number
  readonly source: Source
}

/** A kitchen scale nobody has checked. */
export const kitchenScale: Scale = {
  displayStep: grams(1),
  repeatability: grams(0.5),
  gain: 0.001,
  source: {
    standing: 'common practice, no source',
    where: 'a scale of 5 kg showing whole grams; check yours with something of known mass',
  },
}

/**
 * The part of a reading's variance that is new at every weighing, d²/12 + r², in g².
 *
 * @see JCGM 100:2008, 4.3.7 (rounding)
 */
export const readingVariance = ({
  displayStep,
  repeatability,
}: Pick<Scale, 'displayStep' | 'repeatability'>): number =>
  displayStep ** 2 / 12 + repeatability ** 2

/**
 * Variance of a single weighing, d²/12 + r² + (g·m)², in g². The last part is shared by all
 * weighings on one scale: use `readingVariance` where the gain is carried as an unknown of its own.
 *
 * @param load - grams on the scale, carrier included
 */
export const weighingVariance = (scale: Scale, load: Grams): number =>
  readingVariance(scale) + (scale.gain * load) ** 2
