import type { ScaleRowJson } from '../contract/index.ts'
import { type AccuracyClass, kitchenScale, type Scale, scaleOfClass } from '../filament/index.ts'
import { accept, DomainError, grams, type Outcome, refuse } from '../units/index.ts'

/** A scale as a person knows it: by its class and step, or by figures; a kitchen scale's stand in for the rest. */
export interface ScaleTold {
  readonly class?: AccuracyClass
  readonly step_g?: number
  readonly repeatability_g?: number
  /** Standard uncertainty of its slope, as a share of the load. */
  readonly gain?: number
}

/** What a scale's row has of it. */
export type ScaleFigures = Pick<ScaleRowJson, 'step_g' | 'repeatability_g' | 'gain'>

/** Heaviest load a class is reckoned for where no weighing tells it, g. */
const usualLoad = 2000

/**
 * The scale as it is reckoned with.
 *
 * @param heaviest - that was put on it, g; 0 where nothing is known of that
 * @returns `scale_malformed` (a class without its step), `step_not_positive`, `scale_told_twice` (figures
 *   beside a class), `load_out_of_class`
 */
export const scaleOfTold = (
  { class: accuracyClass, step_g, repeatability_g, gain }: ScaleTold,
  heaviest = 0,
): Outcome<Scale> => {
  if (accuracyClass === undefined) {
    return accept({
      displayStep: grams(step_g ?? kitchenScale.displayStep),
      repeatability: grams(
        repeatability_g ?? (step_g === undefined ? kitchenScale.repeatability : step_g / 2),
      ),
      gain: gain ?? kitchenScale.gain,
      source: { standing: 'common practice, no source', where: 'as given for this scale' },
    })
  }
  if (step_g === undefined) {
    return refuse({
      code: 'scale_malformed',
      message: 'A class is I, II, III or IIII and needs its step.',
    })
  }
  if (!(step_g > 0)) {
    return refuse({
      code: 'step_not_positive',
      message: 'The step of a verified scale is above 0 g.',
      expected: 'above 0 g',
      received: `${step_g} g`,
    })
  }
  if (repeatability_g !== undefined || gain !== undefined) {
    return refuse({
      code: 'scale_told_twice',
      message:
        'A class says how well a scale repeats and how true it is. Leave that out, or the class.',
    })
  }
  try {
    const load = grams(heaviest > 0 ? heaviest : usualLoad)
    return accept(scaleOfClass(accuracyClass, grams(step_g), load))
  } catch (error) {
    if (!(error instanceof DomainError)) throw error
    return refuse({ code: error.code, message: `${error.message}.` })
  }
}

/**
 * A scale as its row keeps it.
 *
 * @returns as `scaleOfTold`
 */
export const scaleRowOf = (told: ScaleTold): Outcome<ScaleFigures> => {
  const scale = scaleOfTold(told)
  if (!scale.ok) return scale
  const { displayStep, repeatability, gain } = scale.value
  return accept({ step_g: displayStep, repeatability_g: repeatability, gain })
}

/**
 * What changes of a scale's row: what is not told stays, a class tells all.
 *
 * @returns as `scaleOfTold`
 */
export const scaleChangeOf = (told: ScaleTold): Outcome<Partial<ScaleFigures>> => {
  const whole = scaleRowOf(told)
  if (!whole.ok || told.class !== undefined) return whole
  const { step_g, repeatability_g, gain } = told
  return accept({
    ...(step_g !== undefined && { step_g }),
    ...(repeatability_g !== undefined && { repeatability_g }),
    ...(gain !== undefined && { gain }),
  })
}

/** A repeatability that nobody told is half the step, and follows a step that is told alone. */
export const withItsStep = (
  before: ScaleFigures,
  { step_g, repeatability_g }: Partial<Record<keyof ScaleFigures, unknown>>,
): Partial<ScaleFigures> =>
  typeof step_g === 'number' &&
  repeatability_g === undefined &&
  before.repeatability_g === before.step_g / 2
    ? { repeatability_g: step_g / 2 }
    : {}
