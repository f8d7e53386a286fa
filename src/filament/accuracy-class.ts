import { DomainError, type Grams, grams } from '../units/index.ts'
import type { Scale } from './scale.ts'
import type { Source } from './source.ts'

/** Accuracy class of a verified scale, printed on its plate in an oval. */
export type AccuracyClass = 'I' | 'II' | 'III' | 'IIII'

/** Largest load, in verification intervals e, at which the error may be 0.5 e, 1 e and 1.5 e. */
const reach: Readonly<Record<AccuracyClass, readonly [number, number, number]>> = {
  I: [50_000, 200_000, Number.POSITIVE_INFINITY],
  II: [5_000, 20_000, 100_000],
  III: [500, 2_000, 10_000],
  IIII: [50, 200, 1_000],
}

const source: Source = {
  standing: 'read second-hand',
  where: 'OIML R 76-1:2006, table 6, in an extract; twice as much in service, 3.5.2, from memory',
}

/**
 * Largest error a verified scale may have.
 *
 * @param interval - verification interval e, grams, > 0
 * @param load - grams, ≥ 0; up to 10⁵ e (II), 10⁴ e (III) or 10³ e (IIII)
 * @param inService - in use rather than just verified: twice as much
 * @throws DomainError `interval_not_positive`, `load_out_of_class`
 * @see OIML R 76-1:2006, table 6
 */
export const maximumPermissibleError = (
  accuracyClass: AccuracyClass,
  interval: Grams,
  load: Grams,
  inService: boolean,
): Grams => {
  if (!(interval > 0)) throw new DomainError('interval_not_positive', `e = ${interval} g`)
  const intervals = load / interval
  const step = intervals >= 0 ? reach[accuracyClass].findIndex((most) => intervals <= most) : -1
  if (step === -1) {
    throw new DomainError(
      'load_out_of_class',
      `${load} g is outside class ${accuracyClass} with e = ${interval} g`,
    )
  }
  return grams((step + 1) * 0.5 * interval * (inService ? 2 : 1))
}

/**
 * A verified scale in service, as an error model good up to a load: its permissible error there
 * taken as uniform, MPE/√3. A kitchen scale is not verified; for it this is the best to hope for.
 *
 * @param interval - verification interval e, taken to be the display step, grams, > 0
 * @param load - the heaviest load to be weighed, grams
 * @throws DomainError as `maximumPermissibleError`
 */
export const scaleOfClass = (
  accuracyClass: AccuracyClass,
  interval: Grams,
  load: Grams,
): Scale => ({
  displayStep: interval,
  repeatability: grams(maximumPermissibleError(accuracyClass, interval, load, true) / Math.sqrt(3)),
  gain: 0,
  source,
})
