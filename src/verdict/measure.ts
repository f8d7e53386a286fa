import {
  type JointNormal,
  type LinearForm,
  type LinearObservation,
  linearDensityOf,
  marginal,
  type NextPrint,
  netOf,
  type Priors,
  type ReelBelief,
  scaled,
  sumOf,
  tareOf,
} from '../estimate/index.ts'
import {
  benchCaliper,
  crossSectionOfPlaces,
  readingVariance,
  type Scale,
} from '../filament/index.ts'
import { grams, measured, millimetres } from '../units/index.ts'

/** Something that could be measured before the print, and the rows it would add. */
export interface Measure {
  /** Stable, snake_case. */
  readonly id: string
  /** What to do, in a sentence. */
  readonly instruction: string
  /** The same where weighings and prints are recorded in a ledger, which reckons the rest. */
  readonly recorded?: string
  /**
   * Observation that this measurement would only repeat: what is wrong with the first (how a display
   * rounds this very load, carriers of a make that differ, calipers that read high) is wrong with the
   * second too. It is not offered unless the first was made much worse than it would be made now.
   */
  readonly repeats?: string
  /** True where what it would tell is told already. */
  readonly needless?: (context: MeasureContext) => boolean
  /** Hands-on time, minutes: common practice, no source. */
  readonly effort_min: number
  /** What would be seen, and its error variance; the value itself does not matter. */
  readonly row: (context: MeasureContext) => Omit<LinearObservation, 'value'>
}

/** What a measurement would be made on. */
export interface MeasureContext {
  readonly belief: ReelBelief
  /** The belief's unknowns and the printer's. */
  readonly joint: JointNormal
  /** The printer in the joint. */
  readonly nextPrint: NextPrint
  readonly priors: Priors
}

/** A small scale for a cut metre: 3 g on a kitchen scale would say nothing. */
const pocketScale: Scale = {
  displayStep: grams(0.01),
  repeatability: grams(0.01),
  gain: 0.002,
  source: {
    standing: 'common practice, no source',
    where: 'a pocket scale that shows hundredths of a gram',
  },
}

const rulerError_mm = 1
const caliperPlaces = 5
const trialDraw_mm = 20_000

/** Everything that could be measured with a scale, calipers and a ruler. */
export const measures: readonly Measure[] = [
  {
    id: 'weigh_reel',
    instruction: 'Weigh the reel as it is now and give the gross mass.',
    recorded: 'Weigh the reel as it is now.',
    repeats: 'weighing_now',
    effort_min: 1,
    row: ({ belief }) => weighing(belief, netOf(belief).value + tareOf(belief).value),
  },
  {
    id: 'weigh_empty_carrier',
    instruction: 'Weigh an empty carrier of the same make and give it as the tare.',
    recorded: 'Weigh an empty carrier of the same make.',
    repeats: 'empty_carrier',
    effort_min: 3,
    row: ({ belief, priors }) => {
      // A shelf knows the make's carriers apart from this one; else all that is common is this one's.
      const { another } = belief
      return {
        form: sumOf(another?.tare ?? belief.tare, scaled(belief.gain, tareOf(belief).value)),
        variance: readingVariance(belief.scale) + (another ? 0 : priors.carrierOfOneMake.u ** 2),
      }
    },
  },
  {
    id: 'calipers',
    instruction: `Measure the diameter with calipers at ${caliperPlaces} places about a metre apart, twice at each, square to each other.`,
    repeats: 'calipers',
    effort_min: 5,
    row: ({ belief }) => {
      const diameter = Math.sqrt(marginal(belief.joint, belief.area).value / (Math.PI / 4))
      const reading = measured(millimetres(diameter))
      const places = Array.from({ length: caliperPlaces }, () => [reading, reading] as const)
      return { form: belief.area, variance: crossSectionOfPlaces(places, benchCaliper).u ** 2 }
    },
  },
  {
    id: 'weigh_cut_metre',
    instruction:
      'Cut one metre off the reel, straightened against a ruler, and weigh it on a scale that shows hundredths of a gram. Mind your fingers when cutting.',
    effort_min: 6,
    row: ({ belief, priors }) => {
      const { value } = linearDensityOf(belief)
      const relative = Math.hypot(rulerError_mm / 1000, pocketScale.gain, priors.metreAboutReel.u)
      const variance = readingVariance(pocketScale) + (value * relative) ** 2
      return { form: belief.linearDensity, variance }
    },
  },
  {
    id: 'weigh_around_a_print',
    instruction:
      'Weigh another reel of the same make before and after a print of 20 m or more on this printer; that takes the time of the print. The mass lost over the metres asked for is what the printer takes for each: give it as the grams per metre, with a doubt of 1.5 in a hundred, and 1±0 as the feed factor, which is in it then. Stay near a printer at work.',
    recorded:
      'Weigh another reel of the same make before and after a print of 20 m or more on this printer, and record both weighings and the print; that takes the time of the print. Stay near a printer at work.',
    needless: ({ joint, nextPrint }) => marginal(joint, nextPrint.meanFeedFactor).u === 0,
    effort_min: 10,
    row: ({ belief, joint, nextPrint, priors }) => {
      const { meanFeedFactor, meanStartAllowance } = nextPrint
      const { another } = belief
      const metres = trialDraw_mm / 1000
      const { value: perMetre } = linearDensityOf(belief)
      const { value: phi } = marginal(joint, meanFeedFactor)
      const { value: start } = marginal(joint, meanStartAllowance)
      const fed = perMetre * metres
      const ofReels = another ? 0 : fed * priors.reelAboutMake.u
      // The trial is a print too, as far off the printer's mean as the next one may be.
      const ownFeed = spreadAbout(joint, nextPrint.feedFactor, meanFeedFactor)
      const ownStart = spreadAbout(joint, nextPrint.startAllowance, meanStartAllowance)
      return {
        form: sumOf(
          scaled(another?.linearDensity ?? belief.linearDensity, phi * metres + start / 1000),
          scaled(meanFeedFactor, fed),
          scaled(meanStartAllowance, perMetre / 1000),
          scaled(belief.gain, fed),
        ),
        variance:
          2 * readingVariance(belief.scale) +
          ofReels ** 2 +
          (fed * ownFeed) ** 2 +
          ((perMetre * ownStart) / 1000) ** 2,
      }
    },
  },
]

/** Standard deviation of one form about another. */
const spreadAbout = (joint: JointNormal, form: LinearForm, mean: LinearForm): number =>
  marginal(joint, sumOf(form, scaled(mean, -1))).u

const weighing = (belief: ReelBelief, load: number): Omit<LinearObservation, 'value'> => ({
  form: sumOf(belief.tare, belief.net, scaled(belief.gain, load)),
  variance: readingVariance(belief.scale),
})
