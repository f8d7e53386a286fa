import type {
  CatalogueRowJson,
  FactJson,
  MakeRowJson,
  PrinterRowJson,
  ScaleRowJson,
} from '../contract/index.ts'
import {
  defaultShelfPriors,
  type ShelfCatalogue,
  type ShelfFact,
  type ShelfMake,
  type ShelfPrinter,
  type ShelfPriors,
  type ShelfScale,
} from '../estimate/index.ts'
import { findMaterial } from '../filament/index.ts'
import { grams, gramsPerCubicCentimetre, measured, millimetres } from '../units/index.ts'
import { CarrierSizes } from './carrier-sizes.ts'
import { type Catalogue, catalogueOf } from './catalogue.ts'
import { editPriors } from './edit-priors.ts'
import { type LeftFact, reelHistories, type StandingFact } from './reel-histories.ts'
import { standingFacts } from './standing-facts.ts'
import { translateFact } from './translate-fact.ts'

/** What the estimate needs to know, and what of the ledger it can not be told. */
export interface LedgerShelf {
  /** Reels that stand opened and whose make is known; makes, printers and scales all. */
  readonly catalogue: ShelfCatalogue
  /** The `opened` of every reel first; for each reel in order of time. */
  readonly facts: readonly ShelfFact[]
  readonly priors: ShelfPriors
  /** Facts that hold and tell of mass, but can not be reckoned with; a bad row `priors` too. */
  readonly left: readonly LeftFact[]
}

/**
 * The ledger as the estimate takes it: `estimateShelf(catalogue, facts, { priors })`.
 *
 * Only facts that hold are taken. Times are days since 1970. Facts dated before their reel was opened
 * are taken at its opening, right after it, in their own order: moments are often rough. A figure
 * written down as exact where the estimate takes none as exact has the doubt of `exact-doubt.ts`. A
 * make of an unknown material is of no known material.
 *
 * @param facts - in the order written down
 */
export const shelfOf = (
  rows: Iterable<CatalogueRowJson>,
  facts: readonly FactJson[],
): LedgerShelf => {
  const catalogue = catalogueOf(rows)
  const left: LeftFact[] = []
  const priors = priorsOf(catalogue, left)
  const histories = reelHistories(standingFacts(facts))
  left.push(...histories.left)

  const sizes = new CarrierSizes(catalogue.makes)
  const taken: ShelfFact[] = []
  const rest: ShelfFact[] = []
  const take = (fact: StandingFact, at: number, into: ShelfFact[]): void => {
    const unknown = unknownIn(fact, catalogue)
    const found = unknown ?? translateFact(fact, at, priors)
    if (typeof found === 'string') left.push({ id: fact.id, why: found })
    else if (fact.kind === 'carrier-weighed' || fact.kind === 'data-sheet') {
      into.push(...found.flatMap((one) => sizes.told(one, fact)))
    } else into.push(...found)
  }
  const reels: { id: string; make: string }[] = []
  for (const [reel, { opened, facts: own }] of histories.reels) {
    const unknown = unknownIn(opened, catalogue)
    if (unknown !== undefined) {
      for (const { id } of own) left.push({ id, why: unknown })
      continue
    }
    reels.push({ id: reel, make: sizes.open(opened) })
    const from = daysOf(opened.at)
    take(opened, from, taken)
    for (const fact of own.slice(1)) take(fact, Math.max(from, daysOf(fact.at)), rest)
  }
  for (const fact of histories.ofNoReel) take(fact, daysOf(fact.at), rest)
  for (const fact of rest) taken.push(fact)
  return {
    catalogue: {
      makes: [...catalogue.makes.values(), ...sizes.others()].map((make) =>
        shelfMake(make, catalogue),
      ),
      printers: Array.from(catalogue.printers.values(), shelfPrinter),
      scales: Array.from(catalogue.scales.values(), shelfScale),
      reels,
    },
    facts: taken,
    priors,
    left,
  }
}

const day = 86_400_000

/** A moment of the ledger as days since 1970, with its fraction. */
export const daysOf = (moment: string): number => Date.parse(moment) / day

const priorsOf = ({ priors }: Catalogue, left: LeftFact[]): ShelfPriors => {
  if (priors === undefined) return defaultShelfPriors
  const edited = editPriors(defaultShelfPriors, priors.priors)
  if (edited.ok) return edited.value
  left.push({ id: 'priors', why: `${edited.refusal.message} The usual priors are taken.` })
  return defaultShelfPriors
}

/** A sentence on the first row of the catalogue that a fact speaks of and that is not there. */
export const unknownIn = (fact: StandingFact, catalogue: Catalogue): string | undefined => {
  if ('make' in fact && !catalogue.makes.has(fact.make)) {
    return `There is no make ${fact.make}.`
  }
  if ('printer' in fact && !catalogue.printers.has(fact.printer)) {
    return `There is no printer ${fact.printer}.`
  }
  const scale = scaleOf(fact)
  return scale === undefined || catalogue.scales.has(scale)
    ? undefined
    : `There is no scale ${scale}.`
}

const scaleOf = (fact: StandingFact): string | undefined => {
  if ('weighing' in fact) return fact.weighing.scale
  if (fact.kind === 'opened') return fact.gross_when_new?.scale
  return fact.kind === 'measured' ? fact.cut?.weighing.scale : undefined
}

const shelfMake = (make: MakeRowJson, { materials }: Catalogue): ShelfMake => {
  const { id, nominal_diameter_mm: diameter, label_net_g: label, carrier } = make
  return {
    id,
    ...materialOf(make.material, materials),
    ...(diameter !== undefined && { nominalDiameter: millimetres(diameter) }),
    ...(label !== undefined && { labelNet: grams(label) }),
    ...(carrier && { carrier }),
  }
}

const materialOf = (
  material: string | undefined,
  own: Catalogue['materials'],
): Pick<ShelfMake, 'material' | 'density' | 'waterAtRest'> => {
  if (material === undefined) return {}
  const row = own.get(material)
  if (row !== undefined) {
    const { density_g_per_cm3: density, water_share: water } = row
    return {
      // An id that is not in the table needs a density beside it.
      ...(density && {
        material,
        density: measured(gramsPerCubicCentimetre(density.value), density.u),
      }),
      ...(water && { waterAtRest: measured(water.value, water.u) }),
    }
  }
  const found = findMaterial(material)
  return found.ok ? { material: found.value.id } : {}
}

const shelfPrinter = ({
  id,
  feed_factor: feed,
  start_allowance_mm: start,
}: PrinterRowJson): ShelfPrinter => ({
  id,
  ...(feed && { feedFactor: measured(feed.value, feed.u) }),
  ...(start && { startAllowance: measured(millimetres(start.value), start.u) }),
})

const shelfScale = ({ id, step_g, repeatability_g, gain, name }: ScaleRowJson): ShelfScale => ({
  id,
  scale: {
    displayStep: grams(step_g),
    repeatability: grams(repeatability_g),
    gain,
    source: { standing: 'read', where: `the ledger's row of ${name}` },
  },
})
