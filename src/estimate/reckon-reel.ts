import { findMaterial } from '../filament/index.ts'
import { accept, formatMeasured, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { noticesOfBelief, surprise } from './belief-notices.ts'
import { checkFacts } from './check-facts.ts'
import { condition, type JointNormal, jointNormal, marginal, meanOf } from './joint-normal.ts'
import { keepAbove } from './keep-above.ts'
import { type Observation, type Point, productAt, rowAt } from './observation.ts'
import { defaultPriors, type Priors } from './priors.ts'
import type { Notice, ReelBelief, UsedObservation } from './reel-belief.ts'
import type { ReelFacts } from './reel-facts.ts'
import { type ReelModel, reelModel } from './reel-model.ts'
import { unknownNames } from './unknown-names.ts'

/** Beyond this many no error of measuring explains it: one of the facts is not true. */
const contradiction = 30
/**
 * Share of its opening mass that a reel may seem to have gained, by taking up water between two
 * weighings: common practice, no source.
 */
const damp = 0.03

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
 *   `facts_contradict` (a fact lies beyond thirty standard deviations off the others),
 *   `gross_below_tare`, `tare_below_nothing` (net mass or tare would be negative by more than three
 *   standard deviations), `gained_mass` (it would hold more than it was opened with),
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
  const [impossible] = impossibilities(belief, knowsOpening(facts) ? seen : undefined)
  if (impossible) return refuse(impossible)
  return accept({ ...belief, notices: [...noticesOf(belief, facts)] })
}

/**
 * What no reel can be, by more than doubt explains.
 *
 * @param unbounded - the joint before the mass fed was kept from falling below 0, where it was
 */
function* impossibilities(
  { joint, used }: ReelBelief,
  unbounded: JointNormal | undefined,
): Generator<Refusal, void> {
  const apart = used.filter(({ off }) => Math.abs(off) > contradiction)
  if (apart.length > 0) {
    const names = apart.map(({ what }) => what).join(', ')
    yield {
      code: 'facts_contradict',
      message: `What is told of this reel can not all be true: no error of measuring brings these together with the rest: ${names}. Check figures and units, and leave out what you trust least.`,
      expected: 'facts that agree within their doubt',
      received: names,
    }
  }
  const left = marginal(joint, net)
  if (left.value + surprise * left.u < 0) {
    yield {
      code: 'gross_below_tare',
      message: `By these figures the reel would hold ${formatMeasured(left, 'g')}, less than nothing. Check the weighing and its unit, and whether the carrier is the one the tare belongs to.`,
      expected: 'a gross mass above the tare',
    }
  }
  const carrier = marginal(joint, { terms: { [tare]: 1 } })
  if (carrier.value + surprise * carrier.u < 0) {
    yield {
      code: 'tare_below_nothing',
      message: `By these figures the carrier would weigh ${formatMeasured(carrier, 'g')}: there would be more filament on the reel than the scale showed in all. Check the weighing and its unit, what the label says, and whether the reel is new.`,
      expected: 'a gross mass above the net mass',
    }
  }
  if (unbounded === undefined) return
  const gained = marginal(unbounded, { terms: { [fed]: -1 } })
  const opened = Math.abs(meanOf(unbounded, opening))
  if (gained.value - surprise * gained.u > damp * opened) {
    yield {
      code: 'gained_mass',
      message: `By these figures the reel holds ${formatMeasured(gained, 'g')} more than when it was opened, and a reel only loses filament. Check both weighings, their units, and whether they are of the same reel.`,
      expected: 'no more than at opening',
    }
  }
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
    u: Math.sqrt(left.varianceAt(at)),
    weightOnNet: weightOn(net),
    weightOnLinearDensity: weightOn(productAt([density, area], 1, at)),
    off,
    surprising: Math.abs(off) > surprise,
  }
}

function* noticesOf(belief: ReelBelief, facts: ReelFacts): Generator<Notice, void> {
  yield* noticesOfBelief(belief)
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
