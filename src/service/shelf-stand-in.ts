import type {
  CatalogueRowJson,
  FactJson,
  MakeRowJson,
  OpenedJson,
  WeighingJson,
} from '../contract/index.ts'
import {
  defaultShelfPriors,
  type ShelfCatalogue,
  type ShelfFact,
  type ShelfPriors,
  type ShelfWeighing,
} from '../estimate/index.ts'
import { standingFacts } from '../ledger/index.ts'
import {
  accept,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Measured,
  measured,
  millimetres,
  type Outcome,
} from '../units/index.ts'

/** What the estimate is given of a ledger. */
export interface Shelf {
  readonly catalogue: ShelfCatalogue
  readonly facts: readonly ShelfFact[]
  readonly priors: ShelfPriors
}

/** A reel for people. */
export interface ReelCard {
  readonly id: string
  readonly make: MakeRowJson
  readonly opened: OpenedJson
  readonly state: 'new' | 'part-used' | 'empty' | 'retired'
}

const weighing = ({ scale, reading_g, u_g, extra_g }: WeighingJson): ShelfWeighing => ({
  scale,
  reading: grams(reading_g),
  ...(u_g !== undefined && { u: u_g }),
  ...(extra_g && { extra: measured(grams(extra_g.value), extra_g.u) }),
})

const of = <Q extends number>(mark: (value: number) => Q, m: Measured): Measured<Q> =>
  measured(mark(m.value), m.u)

export const shelfOf = (
  rows: readonly CatalogueRowJson[],
  all: readonly FactJson[],
): Outcome<Shelf> => {
  const { facts } = standingFacts(all)
  return accept({
    catalogue: {
      makes: rows
        .filter((row) => row.kind === 'make')
        .map((row) => ({
          id: row.id,
          ...(row.material !== undefined && { material: row.material }),
          ...(row.nominal_diameter_mm !== undefined && {
            nominalDiameter: millimetres(row.nominal_diameter_mm),
          }),
          ...(row.label_net_g !== undefined && { labelNet: grams(row.label_net_g) }),
          ...(row.carrier !== undefined && { carrier: row.carrier }),
        })),
      printers: rows
        .filter((row) => row.kind === 'printer')
        .map(({ id, feed_factor, start_allowance_mm }) => ({
          id,
          ...(feed_factor && { feedFactor: feed_factor }),
          ...(start_allowance_mm && { startAllowance: of(millimetres, start_allowance_mm) }),
        })),
      scales: rows
        .filter((row) => row.kind === 'scale')
        .map(({ id, step_g, repeatability_g, gain }) => ({
          id,
          scale: {
            displayStep: grams(step_g),
            repeatability: grams(repeatability_g),
            gain,
            source: { standing: 'common practice, no source', where: 'this scale' },
          },
        })),
      reels: facts
        .filter((fact) => fact.kind === 'opened')
        .map(({ reel, make }) => ({ id: reel, make })),
    },
    facts: facts.flatMap(shelfFact),
    priors: defaultShelfPriors,
  })
}

const shelfFact = (fact: FactJson): ShelfFact[] => {
  const dated = { id: fact.id, at: Date.parse(fact.at) / 86_400_000 }
  switch (fact.kind) {
    case 'opened':
      return [
        {
          ...dated,
          kind: 'opened',
          reel: fact.reel,
          ...(fact.label_net_g !== undefined && { labelNet: grams(fact.label_net_g) }),
          ...(fact.gross_when_new && { grossWhenNew: weighing(fact.gross_when_new) }),
          ...(fact.part_used && { partUsed: true }),
        },
      ]
    case 'weighed':
      return [{ ...dated, kind: 'weighed', reel: fact.reel, ...weighing(fact.weighing) }]
    case 'carrier-weighed':
      return [
        {
          ...dated,
          kind: 'carrier-weighed',
          make: fact.make,
          ...(fact.reel !== undefined && { reel: fact.reel }),
          ...weighing(fact.weighing),
        },
      ]
    case 'drew':
      return [
        {
          ...dated,
          kind: 'drew',
          reel: fact.reel,
          printer: fact.printer,
          length: millimetres(fact.length_mm),
          ...(fact.share && { share: fact.share }),
        },
      ]
    case 'trimmed':
      return [
        {
          ...dated,
          kind: 'trimmed',
          reel: fact.reel,
          ...(fact.mass_g && { mass: of(grams, fact.mass_g) }),
          ...(fact.length_mm && { length: of(millimetres, fact.length_mm) }),
        },
      ]
    case 'ran-dry':
      return [
        {
          ...dated,
          kind: 'ran-dry',
          reel: fact.reel,
          ...(fact.tail_mm && { tail: of(millimetres, fact.tail_mm) }),
        },
      ]
    case 'measured':
      return [
        {
          ...dated,
          kind: 'measured',
          reel: fact.reel,
          ...(fact.density_g_per_cm3 && {
            density: of(gramsPerCubicCentimetre, fact.density_g_per_cm3),
          }),
          ...(fact.linear_density_g_per_m && {
            linearDensity: of(gramsPerMetre, fact.linear_density_g_per_m),
          }),
        },
      ]
    case 'data-sheet':
      return [
        {
          ...dated,
          kind: 'data-sheet',
          make: fact.make,
          ...(fact.density_g_per_cm3 && {
            density: of(gramsPerCubicCentimetre, fact.density_g_per_cm3),
          }),
          ...(fact.tare_g && { tare: of(grams, fact.tare_g) }),
        },
      ]
    default:
      return []
  }
}

export const reelCards = (
  rows: readonly CatalogueRowJson[],
  all: readonly FactJson[],
): readonly ReelCard[] => {
  const { facts } = standingFacts(all)
  const makes = new Map(rows.filter((row) => row.kind === 'make').map((row) => [row.id, row]))
  return facts
    .filter((fact) => fact.kind === 'opened')
    .map((opened) => {
      const own = facts.filter((fact) => 'reel' in fact && fact.reel === opened.reel)
      const has = (kind: FactJson['kind']): boolean => own.some((fact) => fact.kind === kind)
      return {
        id: opened.reel,
        make: makes.get(opened.make)!,
        opened,
        state: has('retired')
          ? 'retired'
          : has('emptied') || has('ran-dry')
            ? 'empty'
            : has('drew') || opened.part_used
              ? 'part-used'
              : 'new',
      }
    })
}
