import {
  benchCaliper,
  crossSectionOfPlaces,
  kitchenScale,
  massOfWinding,
  readingVariance,
  type Scale,
} from '../filament/index.ts'
import {
  accept,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  type Outcome,
} from '../units/index.ts'
import type { Assume, Assumption } from './assumption.ts'
import { type Observation, productAt, scaled, sumOf } from './observation.ts'
import type { Priors } from './priors.ts'
import type { ReelFacts, Weighing } from './reel-facts.ts'
import { priorArea, priorDensity, priorTare } from './reel-priors.ts'
import { ScaleBook } from './scale-book.ts'
import { unknownNames } from './unknown-names.ts'

/** The unknowns of one reel with their priors, and everything observed of it. */
export interface ReelModel {
  readonly unknowns: Readonly<Record<string, Measured>>
  readonly observations: readonly Observation[]
  readonly assumed: readonly Assumption[]
  /** The usual scale. */
  readonly scale: Scale
}

const { tare, opening, fed, density, area, packing } = unknownNames
const net = { terms: { [opening]: 1, [fed]: -1 } }

/**
 * The model of one reel: what is unknown of it, and a row for each thing known.
 *
 * @param facts - physically possible, see `checkFacts`
 * @returns the refusals `material_unknown`, `density_needed`, `winding_below_hub`,
 *   `hub_not_positive`, `width_not_positive`
 * @see docs/method/estimate.md
 */
export const reelModel = (facts: ReelFacts, priors: Priors): Outcome<ReelModel> => {
  const assumed: Assumption[] = []
  const assume: Assume = (id, what, prior, held = prior) => {
    const { value, u } = held
    assumed.push({ id, what, value, u, unit: prior.unit, source: prior.source })
    return measured(value, u)
  }
  const scales = new ScaleBook(facts.scale ?? kitchenScale)
  const observations: Observation[] = []
  const weigh = (id: string, what: string, seen: Weighing, load: Observation['expand']): void => {
    observations.push(weighingRow(id, what, seen, scales, load))
  }

  const densityPrior = priorDensity(facts, priors, assume)
  if (!densityPrior.ok) return densityPrior
  const unknowns: Record<string, Measured> = {
    [tare]: priorTare(facts, priors, assume),
    [opening]: measured(priors.openingWithoutLabel.value, priors.openingWithoutLabel.u),
    [fed]: facts.isNew === true ? measured(0) : measured(priors.fed.value, priors.fed.u),
    [density]: densityPrior.value,
    [area]: priorArea(facts, priors, assume),
  }

  if (facts.grossNow) {
    weigh('weighing_now', 'the weighing now', facts.grossNow, () =>
      sumOf({ terms: { [tare]: 1 } }, net),
    )
  }
  if (facts.grossWhenNew) {
    weigh('weighing_when_new', 'the weighing when new', facts.grossWhenNew, () => ({
      terms: { [tare]: 1, [opening]: 1 },
    }))
  }
  if (facts.tare?.kind === 'weighed') {
    const { weighing, own = false } = facts.tare
    const spread = own ? 0 : priors.carrierOfOneMake.u
    const row = weighingRow('empty_carrier', 'the empty carrier', weighing, scales, () => ({
      terms: { [tare]: 1 },
    }))
    observations.push(widened(row, spread))
  }
  if (facts.tare?.kind === 'stated') {
    const { value, u } = facts.tare.tare
    observations.push(linear('stated_tare', 'the stated tare', { value, u }, 'g', { [tare]: 1 }))
  }
  if (facts.labelNet !== undefined) {
    const overfill = assume('overfill', 'net mass at opening over the label', priors.overfill)
    const label = facts.labelNet
    observations.push(
      linear('label', 'the label, with the usual overfill', times(overfill, label), 'g', {
        [opening]: 1,
      }),
    )
  }
  if (facts.density) {
    const { value, u } = facts.density
    const own = u > 0 ? u : value * priors.dataSheetOffset.u
    observations.push(
      linear('density', 'the density given', { value, u: own }, 'g/cm³', { [density]: 1 }),
    )
  }
  if (facts.calipers) {
    const { places, caliper = benchCaliper } = facts.calipers
    const found = crossSectionOfPlaces(places, caliper)
    observations.push(linear('calipers', 'the caliper readings', found, 'mm²', { [area]: 1 }))
  }
  if (facts.linearDensity) {
    const { value, u } = facts.linearDensity
    observations.push({
      id: 'linear_density',
      what: 'the linear density given',
      value,
      unit: 'g/m',
      varianceAt: () => u ** 2,
      expand: (at) => productAt([density, area], 1, at),
    })
  }
  if (facts.cutLength) {
    const { length, weighing } = facts.cutLength
    const metres = length.value / 1000
    const row = weighingRow('cut_length', 'the cut length', weighing, scales, (at) =>
      productAt([density, area], metres, at),
    )
    const fromRuler = row.value * (length.u / length.value)
    const fromPlace = (row.value * priors.metreAboutReel.u) / Math.sqrt(Math.max(1, metres))
    observations.push(widened(row, Math.hypot(fromRuler, fromPlace)))
  }
  if (facts.winding) {
    // With ρ = 1 and k = 1 exactly, the mass in grams is the winding's volume in cm³.
    const one = measured(gramsPerCubicCentimetre(1))
    const volume = massOfWinding(facts.winding, one, measured(1))
    if (!volume.ok) return volume
    unknowns[packing] =
      facts.packing ?? assume('packing', 'share of the winding that is filament', priors.packing)
    const { value, u } = volume.value
    observations.push({
      id: 'winding',
      what: 'the size of the winding',
      value: 0,
      unit: 'g',
      varianceAt: (at) => (at(density) * at(packing) * u) ** 2,
      expand: (at) => sumOf(net, scaled(productAt([density, packing], value, at), -1)),
    })
  }
  if (facts.statedNet) {
    observations.push(linear('stated_net', 'the stated net mass', facts.statedNet, 'g', net.terms))
  }
  if (facts.statedLength) {
    const { value, u } = facts.statedLength
    observations.push({
      id: 'stated_length',
      what: 'the stated length',
      value: 0,
      unit: 'g',
      varianceAt: (at) => ((at(density) * at(area) * u) / 1000) ** 2,
      expand: (at) => sumOf(net, scaled(productAt([density, area], value / 1000, at), -1)),
    })
  }
  return accept({
    unknowns: { ...unknowns, ...scales.gains() },
    observations,
    assumed,
    scale: scales.usual,
  })
}

/** reading = load + extra + gain·reading + error; the reading stands for the load in the gain. */
const weighingRow = (
  id: string,
  what: string,
  { reading, u, extra, scale }: Weighing,
  scales: ScaleBook,
  load: Observation['expand'],
): Observation => {
  const used = scale ?? scales.usual
  const own = u === undefined ? readingVariance(used) : u ** 2
  const variance = own + (extra?.u ?? 0) ** 2
  const gain = { terms: { [scales.gainOf(used)]: reading } }
  return {
    id,
    what,
    value: reading - (extra?.value ?? 0),
    unit: 'g',
    varianceAt: () => variance,
    expand: (at) => sumOf(load(at), gain),
  }
}

/** The same row with one more independent error, of this standard uncertainty. */
const widened = (row: Observation, u: number): Observation => ({
  ...row,
  varianceAt: (at) => row.varianceAt(at) + u ** 2,
})

const linear = (
  id: string,
  what: string,
  { value, u }: Measured,
  unit: Observation['unit'],
  terms: Readonly<Record<string, number>>,
): Observation => ({ id, what, value, unit, varianceAt: () => u ** 2, expand: () => ({ terms }) })

const times = ({ value, u }: Measured, by: number): Measured => measured(value * by, u * by)
