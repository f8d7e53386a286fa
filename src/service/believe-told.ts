import type { MeasuredJson } from '../contract/index.ts'
import {
  type CarrierKind,
  defaultPriors,
  type ReelBelief,
  type ReelFacts,
  reckonReel,
  type TareFact,
  type Weighing,
} from '../estimate/index.ts'
import { kitchenScale, type Scale } from '../filament/index.ts'
import { calipersOf, doubted, exactDoubts } from '../ledger/index.ts'
import {
  accept,
  type Grams,
  type GramsPerMetre,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type Outcome,
  refuse,
  roundedDoubt,
} from '../units/index.ts'
import type { ReelMeasure } from './measure-reel.ts'
import { type ScaleTold, scaleOfTold } from './scale-told.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** What a person tells of a reel that no ledger has, in any mixture. */
export interface ReelTold
  extends Pick<
    ReelMeasure,
    'cut' | 'density_g_per_cm3' | 'linear_density_g_per_m' | 'winding' | 'calipers'
  > {
  /** On the scale now. */
  readonly gross?: WeighingTold
  readonly grossWhenNew?: WeighingTold
  /** The one it was weighed on; a kitchen scale unless told. */
  readonly scale?: ScaleTold
  /** Its own carrier, weighed empty. */
  readonly ownCarrier?: WeighingTold
  /** Another carrier of its make, weighed empty. */
  readonly emptyCarrier?: WeighingTold
  readonly carrier?: CarrierKind
  readonly label_net_g?: number
  readonly isNew?: boolean
  /** As a person names it. */
  readonly material?: string
  /** Nominal; u = 0 takes the spread usual for a reel. */
  readonly diameter_mm?: MeasuredJson
  /** Standard uncertainty stated with the caliper readings. */
  readonly calipersU_mm?: number
  /** Filament on it, where somebody vouches for it; u = 0 takes whole grams, whole metres. */
  readonly net_g?: MeasuredJson
  readonly length_mm?: MeasuredJson
}

/**
 * What a reel holds that no ledger has, from what is told of it here.
 *
 * @param tool - that it serves, where a print has several: a refusal names it
 * @returns `tare_twice`, and as `scaleOfTold`, `reckonReel`
 */
export const believeTold = (told: ReelTold, tool?: number): Outcome<ReelBelief> => {
  const facts = factsOf(told)
  const belief = facts.ok ? reckonReel(facts.value) : facts
  if (belief.ok || tool === undefined) return belief
  const { refusal } = belief
  return refuse({ ...refusal, message: `T${tool}: ${refusal.message}` })
}

const factsOf = (told: ReelTold): Outcome<ReelFacts> => {
  const { gross, grossWhenNew, calipers, winding, cut } = told
  const heaviest = Math.max(gross?.reading_g ?? 0, grossWhenNew?.reading_g ?? 0)
  const scale = told.scale && scaleOfTold(told.scale, heaviest)
  if (scale?.ok === false) return scale
  const usual = scale?.value ?? kitchenScale
  const tare = tareOf(told, usual)
  if (!tare.ok) return tare
  const { density_g_per_cm3: density, linear_density_g_per_m: linear } = told
  return accept({
    ...(gross && { grossNow: weighed(gross, usual) }),
    ...(grossWhenNew && { grossWhenNew: weighed(grossWhenNew, usual) }),
    ...(scale && { scale: usual }),
    ...(tare.value && { tare: tare.value }),
    ...(told.label_net_g !== undefined && { labelNet: grams(told.label_net_g) }),
    ...(told.isNew === true && { isNew: true }),
    ...(told.material !== undefined && { material: told.material }),
    ...(density && { density: measured(gramsPerCubicCentimetre(density.value), density.u) }),
    ...(told.diameter_mm && { nominalDiameter: lengthOf(told.diameter_mm) }),
    ...(calipers && { calipers: calipersOf(calipers, told.calipersU_mm) }),
    ...(linear && { linearDensity: linearOf(linear) }),
    ...(cut && {
      cutLength: { length: ruled(cut.length_mm), weighing: cutWeighed(cut.weighing, usual) },
    }),
    ...(winding && {
      winding: {
        hub: ruled(winding.hub_mm),
        outer: ruled(winding.outer_mm),
        width: ruled(winding.width_mm),
      },
    }),
    ...(told.net_g && { statedNet: massOf(doubted(told.net_g, roundedDoubt(1))) }),
    ...(told.length_mm && {
      statedLength: lengthOf(doubted(told.length_mm, roundedDoubt(1000))),
    }),
  })
}

const lengthOf = ({ value, u }: MeasuredJson): Measured<Millimetres> =>
  measured(millimetres(value), u)

const ruled = (told: MeasuredJson): Measured<Millimetres> =>
  lengthOf(doubted(told, exactDoubts.ruler))

const massOf = ({ value, u }: MeasuredJson): Measured<Grams> => measured(grams(value), u)

const linearOf = (told: MeasuredJson): Measured<GramsPerMetre> => {
  const { value, u } = doubted(told, told.value * exactDoubts.linearDensity(defaultPriors))
  return measured(gramsPerMetre(value), u)
}

const weighed = (told: WeighingTold, { displayStep, repeatability }: Scale): Weighing => {
  const { u_g: u, extra_g: extra } = weighingOf(told, {
    id: '',
    step_g: displayStep,
    repeatability_g: repeatability,
  })
  return {
    reading: grams(told.reading_g),
    ...(u !== undefined && { u }),
    ...(extra && { extra: measured(grams(extra.value), extra.u) }),
  }
}

/** Told finer than the usual scale shows, it was weighed on a small one that shows so many figures. */
const cutWeighed = (told: WeighingTold, usual: Scale): Weighing => {
  const weighing = weighed(told, usual)
  const step = grams(told.lastPlace_g ?? told.u_g ?? Number.POSITIVE_INFINITY)
  if (!(step < usual.displayStep)) return weighing
  const scale: Scale = {
    displayStep: step,
    repeatability: step,
    gain: 0.002,
    source: {
      standing: 'common practice, no source',
      where: 'a small scale that shows the figures told',
    },
  }
  return { ...weighing, scale }
}

const tareOf = (
  { ownCarrier: own, emptyCarrier: another, carrier }: ReelTold,
  usual: Scale,
): Outcome<TareFact | undefined> => {
  const told: readonly (readonly [what: string, fact: TareFact])[] = [
    ...(own ? [['its own carrier weighed', ofWeighed(own, usual, true)] as const] : []),
    ...(another ? [['one of its make weighed', ofWeighed(another, usual, false)] as const] : []),
    ...(carrier ? [['what the carrier is', { kind: 'looks-like', carrier }] as const] : []),
  ]
  const [one, other] = told
  if (other === undefined) return accept(one?.[1])
  return refuse({
    code: 'tare_twice',
    message: `The tare is told twice, by ${one![0]} and by ${other[0]}. Give the better one only.`,
  })
}

const ofWeighed = (told: WeighingTold, usual: Scale, own: boolean): TareFact => ({
  kind: 'weighed',
  weighing: weighed(told, usual),
  own,
})
