import { readingVariance } from '../filament/index.ts'
import { DomainError, type Measured, measured } from '../units/index.ts'
import { surprise } from './belief-notices.ts'
import { drawnTwice } from './drawn-twice.ts'
import { covarianceOf, type LinearForm, marginal } from './joint-normal.ts'
import { missingDensity } from './missing-density.ts'
import { normalCdf, normalDensity } from './normal.ts'
import { placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { ReelWeighed } from './shelf-facts.ts'
import {
  reelPosterior,
  type ShelfNets,
  scalePosterior,
  shelfGrosses,
  shelfNames,
} from './shelf-posterior.ts'
import { defaultShelfSlips, type ShelfSlips } from './shelf-slips.ts'

/** What may explain a weighing. */
export interface WeighingCause {
  /** `chance` is: nothing is wrong. */
  readonly code:
    | 'chance'
    | 'other_reel'
    | 'ounces'
    | 'pounds'
    | 'kilograms'
    | 'tare_subtracted'
    | 'tare_subtracted_twice'
    | 'print_not_recorded'
    | 'print_recorded_twice'
    | 'adapter_left_on'
    | 'extra_not_there'
    | 'unusual_carrier'
    | 'anything_else'
  /** Probability of this cause among all considered, 0 to 1. */
  readonly weight: number
  /** The reel that was on the scale, for `other_reel`. */
  readonly reel?: string
  /** The draw that may not have been, for `print_recorded_twice`. */
  readonly fact?: string
  /**
   * g, > 0: what is missing or too much, for `print_not_recorded` and `adapter_left_on`; what the draw
   * took, for `print_recorded_twice`; what was told to be beside it, for `extra_not_there`; what the
   * carrier then weighs, for `unusual_carrier`.
   */
  readonly mass?: Measured
  /** The reading as it should have been, g, for the units. */
  readonly reading?: number
}

/** A weighing against what everything else predicts. */
export interface WeighingSurprise {
  /** What the scale should have shown, g; its uncertainty has the scale's in it. */
  readonly predicted: Measured
  /** Shown less predicted, g. */
  readonly innovation: number
  /** The innovation in its standard deviations. */
  readonly off: number
  /** True when `off` is beyond 3 either way. */
  readonly surprising: boolean
  /**
   * Whether the reading, if it is right all the same, tells of something unrecorded on the reel. If not,
   * chance or the carrier explains it better, and the reel's history still holds.
   */
  readonly unrecorded: boolean
  /** Likeliest first; their weights, with the causes left out, sum to 1. */
  readonly causes: readonly WeighingCause[]
}

const ounce = 28.349_523_125
const pound = 453.592_37

/**
 * Tests a weighing against all that an estimate knows, and ranks what may explain it.
 *
 * Each cause says what the display would have shown, as a normal or uniform distribution; its
 * weight is the share of weighings it happens to, times the density there of what was shown, over
 * the sum for all causes. With `chance` on top nothing needs explaining.
 *
 * @param estimate - without this weighing; `withoutFacts` takes it out
 * @param seen - at its time the net is taken as known now, later facts included
 * @param most - how many causes to name, 6 unless given
 * @throws DomainError `unknown_id`, `impossible_fact`
 */
export const weighingSurprise = (
  estimate: ShelfEstimate,
  seen: ReelWeighed,
  { slips = defaultShelfSlips, most = 6 }: { slips?: ShelfSlips; most?: number } = {},
): WeighingSurprise => {
  const { reading } = seen
  if (!Number.isFinite(reading)) {
    throw new DomainError('impossible_fact', `fact ${seen.id} can not hold ${reading}`)
  }
  const load = expected(estimate, seen, seen.reel)
  const { gross, net, twice } = load
  const likely = (of: Measured, times = 1): number => density(reading * times, of) * times
  const found: WeighingCause[] = []
  const add = (share: number, cause: Omit<WeighingCause, 'weight'>, likelihood: number): void => {
    found.push({ ...cause, weight: share * likelihood })
  }

  const repeated = drawnTwice(estimate, seen)
  const { printRecordedTwice, extraNotThere } = slips
  const { extra, ...alone } = seen
  const beside = extra !== undefined && extra.value > 0 ? extra : undefined
  const slipped =
    shareOfAll(slips) -
    (repeated.length === 0 ? printRecordedTwice.share : 0) -
    (beside === undefined ? extraNotThere.share : 0)
  const asPredicted = (1 - slipped) * likely(gross)
  add(1 - slipped, { code: 'chance' }, likely(gross))
  const carrier = unusualCarrier(
    load,
    priorOfTare(estimate, seen.reel),
    reading,
    slips.unusualCarrier.times,
  )
  const byCarrier = carrier ? slips.unusualCarrier.share * likely(carrier.gross) : 0
  if (carrier) {
    const cause = { code: 'unusual_carrier', mass: carrier.tare } as const
    add(slips.unusualCarrier.share, cause, likely(carrier.gross))
  }
  const units = [
    ['ounces', ounce],
    ['pounds', pound],
    ['kilograms', 1000],
  ] as const
  for (const [code, times] of units) {
    // Such a display is taken to be read to about a hundredth of its unit.
    const coarse = measured(gross.value, Math.hypot(gross.u, times / 100))
    add(slips[code].share, { code, reading: reading * times }, likely(coarse, times))
  }
  add(slips.tareSubtracted.share, { code: 'tare_subtracted' }, likely(net))
  add(slips.tareSubtractedTwice.share, { code: 'tare_subtracted_twice' }, likely(twice))
  const missing = gross.value - reading
  const inside = (mass: number, upTo: number): number =>
    Math.max(0, normalCdf(mass / gross.u) - normalCdf((mass - upTo) / gross.u)) / upTo
  let unrecorded = 0
  if (missing > 0) {
    const likelihood = missingDensity(gross, load.held, load.withHeld, reading)
    unrecorded = slips.printNotRecorded.share * likelihood
    const cause = { code: 'print_not_recorded', mass: measured(missing, gross.u) } as const
    add(slips.printNotRecorded.share, cause, likelihood)
  } else if (missing < 0) {
    const cause = { code: 'adapter_left_on', mass: measured(-missing, gross.u) } as const
    add(slips.adapterLeftOn.share, cause, inside(-missing, slips.adapterLeftOn.most))
  }
  if (beside !== undefined) {
    const cause = { code: 'extra_not_there', mass: beside } as const
    add(extraNotThere.share, cause, likely(expected(estimate, alone, seen.reel).gross))
  }
  for (const { fact, mass } of repeated) {
    const of = printRecordedTwice.share / repeated.length
    const likelihood = likely(measured(gross.value + mass.value, Math.hypot(gross.u, mass.u)))
    unrecorded = Math.max(unrecorded, of * likelihood)
    add(of, { code: 'print_recorded_twice', fact, mass }, likelihood)
  }
  const { share, most: upTo } = slips.anythingElse
  add(share, { code: 'anything_else' }, reading <= upTo ? 1 / upTo : 0)
  unrecorded = Math.max(unrecorded, share / upTo)
  const { reels } = estimate.book.catalogue
  const each = slips.otherReel.share / Math.max(1, reels.length - 1)
  const near = nearReels(estimate, seen)
  for (const [i, { id }] of reels.entries()) {
    if (id === seen.reel || !near(i)) continue
    add(each, { code: 'other_reel', reel: id }, likely(expected(estimate, seen, id).gross))
  }

  const sum = found.reduce((sofar, { weight }) => sofar + weight, 0)
  const causes = found
    .filter(({ weight }) => weight > 0)
    .toSorted((a, b) => b.weight - a.weight)
    .slice(0, most)
    .map((cause) => Object.assign({}, cause, { weight: cause.weight / sum }))
  const innovation = reading - gross.value
  const off = innovation / gross.u
  return {
    predicted: gross,
    innovation,
    off,
    surprising: Math.abs(off) > surprise,
    unrecorded: unrecorded > Math.max(asPredicted, byCarrier),
    causes,
  }
}

/** What was believed of a reel's carrier before any fact, g. */
const priorOfTare = ({ book }: ShelfEstimate, reel: string): Measured => {
  const { tare } = book.makes[book.makeOfReel[placeOf(book.reelAt, reel, 'reel')]!]!
  return measured(tare.value, Math.hypot(tare.u, book.priors.carrierOfOneMake.u))
}

/**
 * The gross expected, and the tare after the reading, if the carrier's mass was `times` as uncertain
 * before any fact: its prior precision falls by δ, and by their covariance with it all else follows.
 * What earlier weighings tell of tare and net together so stays told.
 *
 * None unless more than half of what was uncertain of the carrier still is.
 */
const unusualCarrier = (
  { gross, tare, together }: Load,
  prior: Measured,
  reading: number,
  times: number,
): { readonly gross: Measured; readonly tare: Measured } | undefined => {
  if (2 * tare.u ** 2 <= prior.u ** 2) return undefined
  const less = (1 - 1 / times ** 2) / prior.u ** 2
  const kept = 1 - less * tare.u ** 2
  if (!(kept > 0)) return undefined
  const off = (less / kept) * (tare.value - prior.value)
  const value = gross.value + together * off
  const variance = gross.u ** 2 + (less / kept) * together ** 2
  const covariance = together / kept
  return {
    gross: measured(value, Math.sqrt(variance)),
    tare: measured(
      Math.max(1, tare.value + tare.u ** 2 * off + (covariance / variance) * (reading - value)),
      Math.sqrt(Math.max(0, tare.u ** 2 / kept - covariance ** 2 / variance)),
    ),
  }
}

/** What the scale would show with a reel on it, g. */
interface Load {
  readonly gross: Measured
  /** The net alone. */
  readonly net: Measured
  /** The net less the tare. */
  readonly twice: Measured
  readonly tare: Measured
  /** Covariance of gross and tare, g². */
  readonly together: number
  /** What is wound on it, its water included. */
  readonly held: Measured
  /** Covariance of gross and that, g². */
  readonly withHeld: number
}

const expected = (
  estimate: ShelfEstimate,
  { scale, u, extra, at }: ReelWeighed,
  reel: string,
): Load => {
  const { book } = estimate
  const place = placeOf(book.reelAt, reel, 'reel')
  const isDamp = estimate.tapes[place]!.water !== undefined
  const joint = reelPosterior(estimate, reel, {
    scale,
    water: true,
    ...(isDamp || isPast(estimate, place, at) ? { at } : {}),
  })
  const now = (name: string): number => marginal(joint, { terms: { [name]: 1 } }).value
  const left = now(shelfNames.net)
  const water = now(shelfNames.water)
  const variance = ownVariance(estimate, scale, u) + (extra?.u ?? 0) ** 2
  // net·(1 + water), to first order about the means
  const damp = { [shelfNames.net]: 1 + water, [shelfNames.water]: left }
  const constant = (extra?.value ?? 0) - left * water
  const form = (tares: number): LinearForm => {
    const terms = { [shelfNames.tare]: tares, ...damp }
    const load = marginal(joint, { terms, constant }).value
    return { terms: { ...terms, [shelfNames.gain]: load }, constant }
  }
  const shown = (tares: number): Measured => {
    const { value, u: ofLoad } = marginal(joint, form(tares))
    return measured(value, Math.sqrt(ofLoad ** 2 + variance))
  }
  const ofTare = { terms: { [shelfNames.tare]: 1 } }
  const ofHeld = { terms: damp, constant: -left * water }
  return {
    gross: shown(1),
    net: shown(0),
    twice: shown(-1),
    tare: marginal(joint, ofTare),
    together: covarianceOf(joint, form(1), ofTare),
    held: marginal(joint, ofHeld),
    withHeld: covarianceOf(joint, form(1), ofHeld),
  }
}

/** Whether a reel has facts later than a time, so that its chain must be run again up to there. */
const isPast = ({ tapes }: ShelfEstimate, place: number, at: number): boolean =>
  (tapes[place]!.at.at(-1) ?? -Infinity) > at

const ownVariance = ({ book }: ShelfEstimate, scale: string, u: number | undefined): number =>
  u === undefined ? readingVariance(book.scales[placeOf(book.scaleAt, scale, 'scale')]!) : u ** 2

/** Which reels can have shown this at all; of the others the density is below 10⁻¹³ of its top. */
const nearReels = (
  estimate: ShelfEstimate,
  { scale, reading, u, extra, at }: ReelWeighed,
): ((place: number) => boolean) => {
  const now = shelfGrosses(estimate)
  const { value: gain, u: ofGain } = scalePosterior(estimate, scale)
  const load = reading - (extra?.value ?? 0)
  const own = Math.sqrt(ownVariance(estimate, scale, u)) + (extra?.u ?? 0)
  const slack = 8 * (own + ofGain * Math.abs(reading)) + Math.abs(gain * reading)
  return (place) =>
    isPast(estimate, place, at) ||
    Math.abs(load - now.value[place]!) <
      8 * now.u[place]! + slack + waterToCome(estimate, place, now)
}

/** What a reel's water may change its gross by until any time after its facts, g; generously. */
const waterToCome = ({ book }: ShelfEstimate, place: number, { value, u }: ShelfNets): number => {
  const { water } = book.makes[book.makeOfReel[place]!]!
  if (water === undefined) return 0
  const { room } = water.atRest
  return (room.value + 8 * room.u) * (Math.abs(value[place]!) + 8 * u[place]!)
}

const shareOfAll = (slips: ShelfSlips): number =>
  Object.values(slips).reduce((sum, { share }: { share: number }) => sum + share, 0)

const density = (x: number, { value, u }: Measured): number => normalDensity((x - value) / u) / u
