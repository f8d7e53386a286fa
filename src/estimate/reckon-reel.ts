import { findMaterial } from '../filament/index.ts'
import { accept, formatMeasured, type Outcome, refuse } from '../units/index.ts'
import { checkFacts } from './check-facts.ts'
import { condition, type JointNormal, jointNormal, marginal, meanOf } from './joint-normal.ts'
import { keepAbove } from './keep-above.ts'
import { type Observation, type Point, productAt, rowAt } from './observation.ts'
import { defaultPriors, type Priors } from './priors.ts'
import { type Notice, netOf, type ReelBelief, type UsedObservation } from './reel-belief.ts'
import type { ReelFacts } from './reel-facts.ts'
import { type ReelModel, reelModel } from './reel-model.ts'
import { unknownNames } from './unknown-names.ts'

/** Beyond this many standard deviations an observation is called surprising. */
const surprise = 3

const { tare, opening, fed, density, area, gain } = unknownNames
const net = { terms: { [opening]: 1, [fed]: -1 } }
const fedSoFar = { terms: { [fed]: 1 } }

/**
 * What a reel holds, from whatever is known of it: the joint normal of its net mass, linear density
 * and tare.
 *
 * @param facts - any mixture; units as in `ReelFacts`
 * @param priors - what stands in for what is not known
 * @returns the belief, or a refusal: `nothing_known` (no fact tells how much is left),
 *   `gross_below_tare` (the net mass would be negative by more than three standard deviations),
 *   `density_needed` (a filled grade without a measurement), `material_unknown`,
 *   `impossible_input`, `winding_below_hub`
 * @see docs/method/estimate.md
 */
export const reckonReel = (
  facts: ReelFacts,
  priors: Priors = defaultPriors,
): Outcome<ReelBelief> => {
  const checked = checkFacts(facts)
  if (!checked.ok) return checked
  if (!tellsNet(facts)) {
    return refuse({
      code: 'nothing_known',
      message:
        'Nothing given tells how much is on this reel. Weigh it as it is and give the gross mass; or, without a scale, measure hub, winding and width; or give the net mass or length you know it to hold; or say that it is new and what the label promises.',
      expected: 'a weighing, a winding, a stated net mass or length, or a new reel with its label',
    })
  }
  const modelled = reelModel(facts, priors)
  if (!modelled.ok) return modelled
  const model = modelled.value
  const seen = posterior(model)
  const joint = knowsOpening(facts) ? keepAbove(seen, fedSoFar, 0) : seen
  const at = pointOf(joint)
  const belief: ReelBelief = {
    joint,
    net,
    linearDensity: productAt([density, area], 1, at),
    tare: { terms: { [tare]: 1 } },
    area: { terms: { [area]: 1 } },
    gain: { terms: { [gain]: 1 } },
    scale: model.scale,
    used: model.observations.map((left) => examine(left, model, seen)),
    assumed: model.assumed,
    notices: [],
  }
  const { value, u } = netOf(belief)
  if (value + surprise * u < 0) {
    return refuse({
      code: 'gross_below_tare',
      message: `By these figures the reel would hold ${formatMeasured({ value, u }, 'g')}, less than nothing. Check the weighing and its unit, and whether the carrier is the one the tare belongs to.`,
      expected: 'a gross mass above the tare',
    })
  }
  return accept({ ...belief, notices: [...noticesOf(belief, facts)] })
}

const tellsNet = (facts: ReelFacts): boolean =>
  facts.grossNow !== undefined ||
  facts.winding !== undefined ||
  facts.statedNet !== undefined ||
  facts.statedLength !== undefined ||
  (facts.isNew === true && (facts.labelNet !== undefined || facts.grossWhenNew !== undefined))

/**
 * Nobody has fed less than nothing: where the mass at opening is known of, the reel can not hold
 * more than it. Where it is not, the prior is so wide that the bound would say something by itself.
 */
const knowsOpening = ({ labelNet, grossWhenNew, isNew }: ReelFacts): boolean =>
  isNew !== true && (labelNet !== undefined || grossWhenNew !== undefined)

/**
 * Products of unknowns (ρ·A, ρ·k) are expanded about the posterior mean: start at the prior's,
 * update with every row, expand anew, until the mean stands still.
 *
 * @see B. M. Bell and F. W. Cathey, the iterated Kalman update as Gauss–Newton (1993), from memory
 */
const posterior = (model: ReelModel): JointNormal => {
  const prior = jointNormal(model.unknowns)
  let joint = prior
  for (let round = 0; round < 50; round++) {
    const before = joint
    joint = conditionAll(prior, model.observations, pointOf(before))
    const moved = joint.mean.some((mean, i) => {
      const was = before.mean[i]!
      return Math.abs(mean - was) > 1e-11 * (1 + Math.abs(was))
    })
    if (!moved) break
  }
  return joint
}

const pointOf =
  (joint: JointNormal): Point =>
  (name) =>
    meanOf(joint, name)

const conditionAll = (
  prior: JointNormal,
  observations: readonly Observation[],
  at: Point,
): JointNormal =>
  observations.reduce((joint, observation) => condition(joint, rowAt(observation, at)).joint, prior)

/** What one observation adds to all the others, and how far it lies off them. */
const examine = (
  left: Observation,
  { unknowns, observations }: ReelModel,
  joint: JointNormal,
): UsedObservation => {
  const at = pointOf(joint)
  const others = observations.filter((other) => other !== left)
  const without = conditionAll(jointNormal(unknowns), others, at)
  const { innovation, innovationSd } = condition(without, rowAt(left, at))
  const weightOn = (form: Parameters<typeof marginal>[1]): number => {
    const before = marginal(without, form).u
    return before === 0 ? 0 : Math.max(0, 1 - (marginal(joint, form).u / before) ** 2)
  }
  const off = innovationSd === 0 ? 0 : innovation / innovationSd
  return {
    id: left.id,
    what: left.what,
    weightOnNet: weightOn(net),
    weightOnLinearDensity: weightOn(productAt([density, area], 1, at)),
    off,
    surprising: Math.abs(off) > surprise,
  }
}

function* noticesOf(belief: ReelBelief, facts: ReelFacts): Generator<Notice, void> {
  for (const { what, off, surprising } of belief.used) {
    if (!surprising) continue
    yield {
      code: 'surprising',
      message: `What is known besides ${what} puts it ${Math.abs(off).toFixed(1)} standard deviations ${off > 0 ? 'lower' : 'higher'} than given. Usual reasons: another reel or carrier, something left on the scale, pounds or ounces taken for grams, a slipped digit. Both are still reckoned with; check before you rely on it.`,
    }
  }
  const { value, u } = netOf(belief)
  if (value < 2 * u) {
    yield {
      code: 'net_may_be_nothing',
      message: 'On these figures the reel may just as well be empty. A better tare would tell.',
    }
  }
  const usual = facts.material === undefined ? undefined : findMaterial(facts.material)
  if (facts.density && usual?.ok && usual.value.density) {
    const { name, density: table } = usual.value
    const off = (facts.density.value - table.value) / Math.hypot(facts.density.u, table.u)
    if (Math.abs(off) > surprise) {
      yield {
        code: 'density_unlike_material',
        message: `The density given lies far from what ${name} usually has, ${formatMeasured(table, 'g/cm³')}. It is taken as given; check the material and the unit.`,
      }
    }
  }
}
