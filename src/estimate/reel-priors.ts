import { crossSection, findMaterial } from '../filament/index.ts'
import {
  accept,
  type Measured,
  measured,
  millimetres,
  type Outcome,
  refuse,
} from '../units/index.ts'
import type { Assume } from './assumption.ts'
import { type CarrierKind, type Priors, tareOfKind, unknownTareOf } from './priors.ts'
import type { ReelFacts } from './reel-facts.ts'

/** A carrier of each kind, in words. */
export const carrierNames: Readonly<Record<CarrierKind, string>> = {
  plastic: 'a plastic carrier',
  cardboard: 'a cardboard carrier',
  'refill-core': 'a refill core',
  metal: 'a metal carrier',
}

/** Tare before it is weighed, g. */
export const priorTare = (facts: ReelFacts, priors: Priors, assume: Assume): Measured => {
  const size = facts.labelNet ?? likelySize(facts, priors)
  const like = priors.carrierKinds.plastic
  if (facts.tare?.kind === 'looks-like') {
    const { carrier } = facts.tare
    const prior = priors.carrierKinds[carrier]
    return assume(
      'tare',
      `tare of ${carrierNames[carrier]}`,
      prior,
      tareOfKind(priors, carrier, size),
    )
  }
  const unknown = unknownTareOf(priors, size)
  if (facts.tare !== undefined || !needsTare(facts)) return unknown
  return assume('tare', 'tare, the carrier being unknown', { ...like, ...unknown })
}

const needsTare = ({ grossNow, grossWhenNew }: ReelFacts): boolean =>
  grossNow !== undefined || grossWhenNew !== undefined

/** The smallest usual reel, from 1 kg on, that can weigh as much as this one has. */
const likelySize = ({ grossNow, grossWhenNew }: ReelFacts, priors: Priors): number => {
  const heaviest = Math.max(grossNow?.reading ?? 0, grossWhenNew?.reading ?? 0)
  const usual = priors.unknownTare.filter(({ label_g }) => label_g >= 1000)
  const holds = usual.find(
    ({ label_g, tare: { value, u } }) =>
      heaviest <= label_g * (priors.overfill.value + 3 * priors.overfill.u) + value + 3 * u,
  )
  return (holds ?? usual.at(-1))?.label_g ?? 1000
}

/** Density before it is measured, g/cm³; refusals `material_unknown`, `density_needed`. */
export const priorDensity = (
  { material: text, density: given, linearDensity, cutLength }: ReelFacts,
  priors: Priors,
  assume: Assume,
): Outcome<Measured> => {
  const wide = measured(priors.densityOfFilledGrade.value, priors.densityOfFilledGrade.u)
  if (text === undefined) {
    if (given) return accept(wide)
    const unknown = priors.densityOfUnknownMaterial
    return accept(assume('density', 'density, the material being unknown', unknown))
  }
  const found = findMaterial(text)
  if (!found.ok) return found
  if (given) return accept(wide)
  const { name, density: usual, densitySource: source } = found.value
  if (usual) {
    const { value, u } = usual
    return accept(assume('density', `density of ${name}`, { value, u, unit: 'g/cm³', source }))
  }
  if (linearDensity || cutLength) return accept(wide)
  return refuse({
    code: 'density_needed',
    message: `${name} has no usual density: it depends on how much filler is in it. Cut a metre and weigh it, or give its grams per metre or the density on its sheet.`,
    expected: 'a cut length, a linear density or a density',
    received: name,
  })
}

/** Cross-section before it is measured, mm². */
export const priorArea = (facts: ReelFacts, priors: Priors, assume: Assume): Measured => {
  const { value, u } = facts.nominalDiameter ?? priors.nominalDiameter
  const spread = u > 0 ? u : priors.diameterOffset.u
  if (!facts.nominalDiameter && !facts.calipers) {
    assume('diameter', 'diameter', { ...priors.nominalDiameter, u: spread })
  } else if (!facts.calipers && u === 0) {
    assume('diameter', 'mean diameter of a reel about its nominal', {
      ...priors.diameterOffset,
      value,
    })
  }
  return crossSection(measured(millimetres(value), spread))
}
