import { kitchenScale } from '../filament/index.ts'
import { type Measured, measured } from '../units/index.ts'
import { netBelowNothing, noticesOfBelief } from './belief-notices.ts'
import { extend, type JointNormal, type LinearForm, meanOf } from './joint-normal.ts'
import type { NextPrint, ReelBelief } from './reel-belief.ts'
import { assumedOfReel } from './shelf-assumed.ts'
import { placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import { type ReelPosteriorOptions, reelPosterior, shelfNames } from './shelf-posterior.ts'
import { usedOfReel } from './shelf-used.ts'
import { standInsOf } from './stand-in.ts'

/** What a belief from a shelf is about beside the reel. */
export interface ShelfBeliefOptions extends Omit<ReelPosteriorOptions, 'ofMake'> {
  /**
   * Which observations of the reel to hold against all others: each one, or only the last of its
   * net, which is what a ranking of many reels has time for. All unless given.
   */
  readonly examine?: 'all' | 'last'
}

const { tare, net, linearDensity, feedFactor, startAllowance, gain } = shelfNames
const { makeTare, makeDensity, makeLinearDensity } = shelfNames
/** What one reel or one print has of its own, independent of all else. */
export const own = {
  density: 'density_about_make',
  carrier: 'carrier_of_another',
  linearDensity: 'linear_density_of_another',
  feed: 'feed_of_next_print',
  start: 'start_of_next_print',
} as const

const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })
const both = (a: string, b: string): LinearForm => ({ terms: { [a]: 1, [b]: 1 } })

/**
 * What a shelf believes of one reel, as a verdict takes it: the reel's exact joint with its make, and
 * with a printer and a scale if named. The printer's part is its next print, with the spread that one
 * print has about the printer's mean.
 *
 * The scale is the one a next weighing would be made on; the usual kitchen scale, of unknown gain,
 * unless named. `used` are the reel's own observations against everything else the shelf knows;
 * `assumed` is what still rests mostly on priors. Nothing is refused here: facts that disagree show in
 * `used` and `notices`.
 *
 * @throws DomainError `unknown_id`
 * @see docs/method/shelf.md, "A reel's belief"
 */
export const shelfBelief = (
  estimate: ShelfEstimate,
  reel: string,
  { examine = 'all', ...options }: ShelfBeliefOptions = {},
): ReelBelief => {
  const { book } = estimate
  const place = placeOf(book.reelAt, reel, 'reel')
  const { printer, scale } = options
  const joint = jointBeforePrint(estimate, reel, options)
  const nextPrint: NextPrint | undefined =
    printer === undefined
      ? undefined
      : {
          feedFactor: both(feedFactor, own.feed),
          startAllowance: both(startAllowance, own.start),
          meanFeedFactor: one(feedFactor),
          meanStartAllowance: one(startAllowance),
        }
  const forms = {
    net: one(net),
    linearDensity: one(linearDensity),
    tare: one(tare),
    area: areaAbout(meanOf(joint, linearDensity), meanOf(joint, makeDensity)),
    gain: one(gain),
    another: {
      tare: both(makeTare, own.carrier),
      linearDensity: both(makeLinearDensity, own.linearDensity),
    },
    ...(nextPrint && { nextPrint }),
  }
  const printerAt = printer === undefined ? undefined : placeOf(book.printerAt, printer, 'printer')
  const standIns = standInsOf(estimate.standIns(), (under) =>
    jointBeforePrint(under, reel, options),
  )
  const belief: ReelBelief = {
    joint,
    ...(standIns.length > 0 && { standIns }),
    ...forms,
    scale: scale === undefined ? kitchenScale : book.scales[placeOf(book.scaleAt, scale, 'scale')]!,
    used: usedOfReel(estimate, place, examine === 'last', scale),
    assumed: assumedOfReel(
      estimate,
      place,
      joint,
      { ...forms, makeDensity: one(makeDensity) },
      printerAt,
    ),
    notices: [],
  }
  return { ...belief, notices: [...noticesOfBelief(belief), ...netBelowNothing(belief)] }
}

/** The reel, its make and the printer jointly, and what the next print and another reel have of their own. */
const jointBeforePrint = (
  estimate: ShelfEstimate,
  reel: string,
  options: ReelPosteriorOptions,
): JointNormal => {
  const { book } = estimate
  const { priors } = book
  const seen = reelPosterior(estimate, reel, { ...options, ofMake: true })
  const { nominalArea, density } = book.makes[book.makeOfReel[placeOf(book.reelAt, reel, 'reel')]!]!
  const usual = nominalArea * density.value
  const more: Record<string, Measured> = {
    [own.density]: measured(0, priors.densityOfOneMake.u),
    [own.carrier]: measured(0, priors.carrierOfOneMake.u),
    [own.linearDensity]: measured(0, usual * priors.reelAboutMake.u),
  }
  if (options.scale === undefined) more[gain] = measured(0, kitchenScale.gain)
  if (options.printer !== undefined) {
    more[own.feed] = measured(0, Math.abs(meanOf(seen, feedFactor)) * priors.feedOfOneDraw.u)
    more[own.start] = measured(0, priors.startOfOneDraw.u)
  }
  return extend(seen, more)
}

/** λ/ρ to first order, ρ being the make's density times one and what this reel is off it. */
const areaAbout = (perMetre: number, density: number): LinearForm => {
  const area = perMetre / density
  return {
    terms: { [linearDensity]: 1 / density, [makeDensity]: -area / density, [own.density]: -area },
    constant: area,
  }
}
