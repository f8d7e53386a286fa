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
import { keepAbove } from './keep-above.ts'
import type { StandIn } from './stand-in.ts'

/** An observation that went into the belief. */
export interface UsedObservation {
  /** Stable, snake_case. */
  readonly id: string
  /** Id of the fact in the ledger, where it stands in one. */
  readonly fact?: string
  readonly what: string
  /** Standard uncertainty of its own, in its own unit. */
  readonly u: number
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
  /**
   * Stable, snake_case: `surprising`, `net_may_be_nothing`, `net_below_nothing`,
   * `density_unlike_material`.
   */
  readonly code: string
  readonly message: string
  /** Id of the fact in the ledger that it is about, where there is one. */
  readonly fact?: string
}

/** The next print on one printer, as weighted sums of the joint's unknowns. */
export interface NextPrint {
  /** Fed for each millimetre asked. */
  readonly feedFactor: LinearForm
  /** mm */
  readonly startAllowance: LinearForm
  /** Mean over the printer's prints. */
  readonly meanFeedFactor: LinearForm
  /** Mean over the printer's prints, mm. */
  readonly meanStartAllowance: LinearForm
}

/** Another reel of the make, of which nothing is known but by its make. */
export interface AnotherReel {
  /** g */
  readonly tare: LinearForm
  /** g/m */
  readonly linearDensity: LinearForm
}

/** What is believed of one reel: everything jointly normal, correlations kept. */
export interface ReelBelief {
  /**
   * What the facts lead to by themselves. It does not know yet that a reel holds no less than
   * nothing: where net mass and 0 are near each other, part of it lies below. Figures to show come
   * from `netOf`, `linearDensityOf` and `tareOf`, chances from the verdict, and both know.
   */
  readonly joint: JointNormal
  /**
   * The same unknowns under priors that stand for all that those of `joint` may be. Absent where these are
   * taken as known.
   */
  readonly standIns?: readonly StandIn<JointNormal>[]
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
  /**
   * What the printer in question will take, where it is believed of jointly with the reel: prints of
   * an unlearnt feed that were taken off this reel make its net hang on it.
   */
  readonly nextPrint?: NextPrint
  /** Where the make is believed of jointly with the reel. */
  readonly another?: AnotherReel
  readonly used: readonly UsedObservation[]
  readonly assumed: readonly Assumption[]
  readonly notices: readonly Notice[]
}

/** Value and standard uncertainty of a form, given that the net mass is not below 0. */
const shown = ({ joint, net }: ReelBelief, form: LinearForm): Measured =>
  marginal(keepAbove(joint, net, 0), form)

/** Net mass, g, given that it is not below 0; its u is never larger than its value. */
export const netOf = (belief: ReelBelief): Measured<Grams> => {
  const { value, u } = shown(belief, belief.net)
  return measured(grams(value), u)
}

/** Linear density, g/m. */
export const linearDensityOf = (belief: ReelBelief): Measured<GramsPerMetre> => {
  const { value, u } = shown(belief, belief.linearDensity)
  return measured(gramsPerMetre(value), u)
}

/** Tare, g, given that the net mass is not below 0. */
export const tareOf = (belief: ReelBelief): Measured<Grams> => {
  const { value, u } = shown(belief, belief.tare)
  return measured(grams(value), u)
}
