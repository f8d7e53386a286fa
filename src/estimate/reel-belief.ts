import type { Scale } from '../filament/index.ts'
import {
  type Grams,
  type GramsPerMetre,
  grams,
  gramsPerMetre,
  type Measured,
  measured,
} from '../units/index.ts'
import type { Assumption } from './assumption.ts'
import { type JointNormal, type LinearForm, marginal } from './joint-normal.ts'
import { normalQuantile } from './normal.ts'

/** An observation that went into the belief. */
export interface UsedObservation {
  /** Stable, snake_case. */
  readonly id: string
  readonly what: string
  /**
   * Share of the variance of the net mass that this observation alone takes away, with all the
   * others in: 0 means that it adds nothing, 1 that everything hangs on it.
   */
  readonly weightOnNet: number
  /** The same for the linear density. */
  readonly weightOnLinearDensity: number
  /** How far it lies off what all the rest predicts, in standard deviations. */
  readonly off: number
  /** True when `off` is beyond 3 either way. */
  readonly surprising: boolean
}

/** Something a person must be told before they trust the belief. */
export interface Notice {
  /** Stable, snake_case: `surprising`, `net_may_be_nothing`, `density_unlike_material`. */
  readonly code: string
  readonly message: string
}

/** What is believed of one reel: everything jointly normal, correlations kept. */
export interface ReelBelief {
  readonly joint: JointNormal
  /** Net mass, g, as a weighted sum of the joint's unknowns. */
  readonly net: LinearForm
  /** Linear density, g/m, to first order about the joint's mean. */
  readonly linearDensity: LinearForm
  /** g */
  readonly tare: LinearForm
  /** mm² */
  readonly area: LinearForm
  /** Relative error of the usual scale. */
  readonly gain: LinearForm
  /** The usual scale. */
  readonly scale: Scale
  readonly used: readonly UsedObservation[]
  readonly assumed: readonly Assumption[]
  readonly notices: readonly Notice[]
}

/** Net mass, g. Its arithmetic stays normal: see `netInterval` for what to show. */
export const netOf = ({ joint, net }: ReelBelief): Measured<Grams> => {
  const { value, u } = marginal(joint, net)
  return measured(grams(value), u)
}

/** Linear density, g/m. */
export const linearDensityOf = ({ joint, linearDensity }: ReelBelief): Measured<GramsPerMetre> => {
  const { value, u } = marginal(joint, linearDensity)
  return measured(gramsPerMetre(value), u)
}

/** Tare, g. */
export const tareOf = ({ joint, tare }: ReelBelief): Measured<Grams> => {
  const { value, u } = marginal(joint, tare)
  return measured(grams(value), u)
}

/** An interval of net mass to show, g, never below 0. */
export interface NetInterval {
  readonly low: Grams
  readonly high: Grams
  /** True when the normal interval reached below 0 and was cut there. */
  readonly cut: boolean
}

/**
 * The symmetric interval that holds the net mass with the coverage given, cut at 0.
 *
 * @param coverage - between 0 and 1, exclusive; 0.95 unless given
 */
export const netInterval = (belief: ReelBelief, coverage = 0.95): NetInterval => {
  const { value, u } = netOf(belief)
  const reach = normalQuantile((1 + coverage) / 2) * u
  return {
    low: grams(Math.max(0, value - reach)),
    high: grams(Math.max(0, value + reach)),
    cut: value - reach < 0,
  }
}
