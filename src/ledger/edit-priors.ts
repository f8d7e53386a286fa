import type { MeasuredJson } from '../contract/index.ts'
import { defaultShelfPriors, type Prior, type ShelfPriors } from '../estimate/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'

/** A prior that a shelf can change, as it stands by default. */
export interface PriorKey {
  /** As in the row `priors`: `feedFactor`, `carrierKinds.plastic`, `unknownTare.1000`. */
  readonly key: string
  readonly prior: Prior
}

/**
 * Every prior that a shelf can change, with unit, default and source.
 *
 * @param priors - the usual ones unless given
 */
export const priorKeys = (priors: ShelfPriors = defaultShelfPriors): readonly PriorKey[] =>
  Object.entries(priors).flatMap(([name, part]) => keysOf(name, part))

type Part = ShelfPriors[keyof ShelfPriors]

const keysOf = (name: string, part: Part): readonly PriorKey[] => {
  if ('unit' in part) return [{ key: name, prior: part }]
  if (!('plastic' in part)) {
    return part.map(({ label_g, tare }) => ({ key: `${name}.${label_g}`, prior: tare }))
  }
  return Object.entries(part).map(([kind, prior]) => ({ key: `${name}.${kind}`, prior }))
}

/**
 * Priors with some of them changed.
 *
 * @param row - as in the row `priors` of the catalogue; a changed prior has this shelf for its source
 * @returns refusals `prior_unknown`, `prior_impossible`
 */
export const editPriors = (
  defaults: ShelfPriors,
  row: Readonly<Record<string, MeasuredJson>>,
): Outcome<ShelfPriors> => {
  const known = new Map(priorKeys(defaults).map(({ key, prior }) => [key, prior]))
  for (const [key, { value, u }] of Object.entries(row)) {
    const prior = known.get(key)
    if (prior === undefined) {
      const keys = [...known.keys()].join(', ')
      return refuse({
        code: 'prior_unknown',
        message: `There is no prior "${key}". The priors are ${keys}.`,
        expected: keys,
        received: key,
      })
    }
    const wrong = faultOf(key, prior, value, u)
    if (wrong !== undefined) {
      return refuse({
        code: 'prior_impossible',
        message: `The prior "${key}" can not be ${value} ± ${u}: ${wrong}.`,
        expected: wrong,
        received: `${value} ± ${u}`,
      })
    }
  }
  const changed = (key: string, prior: Prior): Prior => {
    const edit = Object.hasOwn(row, key) ? row[key] : undefined
    return edit === undefined ? prior : { ...prior, ...edit, source: ownWord }
  }
  // Each part keeps its shape: only priors in it are replaced.
  return accept(
    Object.fromEntries(
      Object.entries(defaults).map(([name, part]) => [name, editPart(name, part, changed)]),
    ) as unknown as ShelfPriors,
  )
}

const ownWord: Prior['source'] = {
  standing: 'common practice, no source',
  where: 'set for this shelf',
}

const editPart = (
  name: string,
  part: Part,
  changed: (key: string, prior: Prior) => Prior,
): Part => {
  if ('unit' in part) return changed(name, part)
  if (!('plastic' in part)) {
    return part.map(({ label_g, tare }) => ({ label_g, tare: changed(`${name}.${label_g}`, tare) }))
  }
  return {
    plastic: changed(`${name}.plastic`, part.plastic),
    cardboard: changed(`${name}.cardboard`, part.cardboard),
    'refill-core': changed(`${name}.refill-core`, part['refill-core']),
    metal: changed(`${name}.metal`, part.metal),
  }
}

/** Lengths that are added, and a limit, that may be 0. */
const mayBeNothing: ReadonlySet<string> = new Set(['startAllowance', 'tail', 'leastWater'])

/** A prior of 0 is a difference and may be of either sign; the others are quantities above 0. */
const faultOf = (key: string, prior: Prior, value: number, u: number): string | undefined => {
  if (!Number.isFinite(value) || !Number.isFinite(u)) return 'both are finite numbers'
  if (u < 0) return 'an uncertainty is not negative'
  if (u === 0 && prior.u > 0) return 'nobody knows this exactly, so its uncertainty is above 0'
  if (mayBeNothing.has(key) && value === 0) return undefined
  if (prior.value > 0 && value <= 0) return 'this one is above 0'
  if (key === 'packing' && value > 1) return 'it is a share of a volume, 1 at most'
  return undefined
}
