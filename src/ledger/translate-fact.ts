import type {
  CarrierWeighedJson,
  DataSheetJson,
  DrewJson,
  DriedJson,
  MeasuredFactJson,
  MeasuredJson,
  OpenedJson,
  RanDryJson,
  TrimmedJson,
  WeighingJson,
} from '../contract/index.ts'
import type { ReelMeasured, ShelfFact, ShelfPriors, ShelfWeighing } from '../estimate/index.ts'
import { immersionDensity, waterDensity } from '../filament/index.ts'
import {
  celsius,
  type Grams,
  type GramsPerCubicCentimetre,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import { calipersOf } from './calipers-of.ts'
import { doubted, exactDoubts } from './exact-doubt.ts'
import type { StandingFact } from './reel-histories.ts'

/**
 * A fact of the ledger as facts of the estimate, usually one; none where it says nothing of any mass.
 *
 * @param at - days since 1970
 * @returns the facts, or a sentence why it can not be reckoned with
 */
export const translateFact = (
  fact: StandingFact,
  at: number,
  priors: ShelfPriors,
): readonly ShelfFact[] | string => {
  const dated = { id: fact.id, at }
  switch (fact.kind) {
    case 'opened':
      return [{ ...dated, ...openedOf(fact) }]
    case 'weighed':
      // Who accepts a surprise says that it is as it is: then something was not recorded.
      return [
        {
          ...dated,
          kind: 'weighed',
          reel: fact.reel,
          ...weighingOf(fact.weighing),
          ...(fact.accepted_off !== undefined && { afterUnrecorded: true }),
        },
      ]
    case 'carrier-weighed':
      return [{ ...dated, ...carrierOf(fact) }]
    case 'drew':
      return [{ ...dated, ...drewOf(fact) }]
    case 'trimmed':
      return [{ ...dated, ...trimmedOf(fact) }]
    case 'emptied':
      return [{ ...dated, kind: 'emptied', reel: fact.reel }]
    case 'ran-dry':
      return [{ ...dated, ...ranDryOf(fact) }]
    case 'measured':
      return measuredOf(fact, at, priors)
    case 'data-sheet':
      return [{ ...dated, ...sheetOf(fact, priors) }]
    case 'dried':
      return driedOf(fact, at)
    case 'moved':
      return fact.air === undefined
        ? []
        : [{ ...dated, kind: 'moved', reel: fact.reel, air: fact.air }]
    case 'retired':
      return []
    default:
      return fact satisfies never
  }
}

type Undated<T> = T extends unknown ? Omit<T, 'id' | 'at'> : never
type Of<K extends ShelfFact['kind']> = Undated<Extract<ShelfFact, { readonly kind: K }>>

const massOf = ({ value, u }: MeasuredJson): Measured<Grams> => measured(grams(value), u)
const lengthOf = ({ value, u }: MeasuredJson): Measured<Millimetres> =>
  measured(millimetres(value), u)
const ruled = (told: MeasuredJson): Measured<Millimetres> =>
  lengthOf(doubted(told, exactDoubts.ruler))
const densityOf = ({ value, u }: MeasuredJson): Measured<GramsPerCubicCentimetre> =>
  measured(gramsPerCubicCentimetre(value), u)

const weighingOf = ({ scale, reading_g, u_g, extra_g }: WeighingJson): ShelfWeighing => ({
  scale,
  reading: grams(reading_g),
  ...(u_g !== undefined && { u: u_g }),
  ...(extra_g && { extra: massOf(extra_g) }),
})

const openedOf = ({ reel, label_net_g, gross_when_new, part_used }: OpenedJson): Of<'opened'> => ({
  kind: 'opened',
  reel,
  ...(label_net_g !== undefined && { labelNet: grams(label_net_g) }),
  ...(gross_when_new && { grossWhenNew: weighingOf(gross_when_new) }),
  ...(part_used && { partUsed: true }),
})

const carrierOf = ({ make, reel, weighing }: CarrierWeighedJson): Of<'carrier-weighed'> => ({
  kind: 'carrier-weighed',
  make,
  ...(reel !== undefined && { reel }),
  ...weighingOf(weighing),
})

const drewOf = ({ reel, printer, length_mm, share, accepted_off: off }: DrewJson): Of<'drew'> => ({
  kind: 'drew',
  reel,
  printer,
  length: millimetres(length_mm),
  ...(share && { share: measured(share.value, share.u) }),
  ...(off !== undefined && { afterUnrecorded: true }),
})

const trimmedOf = ({ reel, mass_g, length_mm, accepted_off: off }: TrimmedJson): Of<'trimmed'> => ({
  kind: 'trimmed',
  reel,
  ...(mass_g && { mass: massOf(mass_g) }),
  ...(length_mm && { length: lengthOf(length_mm) }),
  ...(off !== undefined && { afterUnrecorded: true }),
})

const ranDryOf = ({ reel, tail_mm, accepted_off: off }: RanDryJson): Of<'ran-dry'> => ({
  kind: 'ran-dry',
  reel,
  ...(off !== undefined && { afterUnrecorded: true }),
  ...(tail_mm && { tail: ruled(tail_mm) }),
})

const driedOf = (
  { id, reel, remaining_share: remaining }: DriedJson,
  at: number,
): readonly ShelfFact[] | string => {
  if (remaining && remaining.value > 1) return 'More water than filament can not be left in a reel.'
  const left = remaining && { remaining: measured(remaining.value, remaining.u) }
  return [{ id, at, kind: 'dried', reel, ...left }]
}

const sheetOf = (
  { make, density_g_per_cm3, tare_g }: DataSheetJson,
  priors: ShelfPriors,
): Of<'data-sheet'> => ({
  kind: 'data-sheet',
  make,
  ...(density_g_per_cm3 && { density: densityOf(density_g_per_cm3) }),
  ...(tare_g && { tare: massOf(doubted(tare_g, exactDoubts.statedTare(priors))) }),
})

/** Two densities of one fact, one of them by immersion, are two facts of the estimate. */
const measuredOf = (
  fact: MeasuredFactJson,
  at: number,
  priors: ShelfPriors,
): readonly ShelfFact[] | string => {
  const { id, reel, calipers, cut, immersion, winding } = fact
  const { density_g_per_cm3: stated, linear_density_g_per_m: linear } = fact
  if (immersion && !(immersion.in_water_g.value < immersion.in_air_g.value)) {
    return 'The piece weighs no less in water than in air.'
  }
  if (winding && !(winding.outer_mm.value > winding.hub_mm.value)) {
    return 'The winding is no wider than its hub.'
  }
  const common = { id, at, kind: 'measured', reel } as const
  const withDoubt = (density: MeasuredJson): Measured<GramsPerCubicCentimetre> =>
    densityOf(doubted(density, density.value * exactDoubts.density(priors)))
  const immersed =
    immersion &&
    withDoubt(
      immersionDensity(
        massOf(immersion.in_air_g),
        massOf(immersion.in_water_g),
        waterDensity(measured(celsius(immersion.water_c), exactDoubts.water)),
      ),
    )
  const direct = stated && withDoubt(stated)
  const density = direct ?? immersed
  const share = exactDoubts.linearDensity(priors)
  const parts: Omit<ReelMeasured, keyof typeof common> = {
    ...(calipers && { calipers: calipersOf(calipers) }),
    ...(cut && {
      cutLength: { length: ruled(cut.length_mm), weighing: weighingOf(cut.weighing) },
    }),
    ...(density && { density }),
    ...(linear && {
      linearDensity: measured(gramsPerMetre(linear.value), doubted(linear, linear.value * share).u),
    }),
    ...(winding && {
      winding: {
        hub: ruled(winding.hub_mm),
        outer: ruled(winding.outer_mm),
        width: ruled(winding.width_mm),
      },
    }),
  }
  const first: ShelfFact = { ...common, ...parts }
  return direct && immersed ? [first, { ...common, density: immersed }] : [first]
}
