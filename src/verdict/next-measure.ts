import {
  condition,
  covarianceOf,
  defaultPriors,
  extend,
  type JointNormal,
  type LinearForm,
  type LinearObservation,
  marginal,
  type NextPrint,
  normalDensity,
  type Priors,
  type ReelBelief,
  type StandIn,
  scaled,
  standInsOf,
  sumOf,
} from '../estimate/index.ts'
import { type Grams, grams, type Measured } from '../units/index.ts'
import { chanceOfDraw } from './chance-of-draw.ts'
import { type DrawAlternative, normalised } from './draw-alternative.ts'
import { chanceGivenNet, chanceOf, chanceOfSome } from './margin.ts'
import { marginModel, printerOf } from './margin-model.ts'
import { type Measure, type MeasureContext, measures } from './measure.ts'
import {
  callOfPrint,
  confidenceOfPrint,
  isInDoubt,
  type ToolChance,
  type ToolInput,
} from './print-verdict.ts'
import { type Printer, unknownPrinter } from './printer.ts'
import { contradictingOf, mixture, type VerdictInput } from './verdict.ts'

/** What one measurement would do for the call. */
export interface NextMeasure {
  /** Stable, snake_case. */
  readonly id: string
  readonly instruction: string
  readonly effort_min: number
  /** Standard deviation of the margin after it, g. */
  readonly marginSd: Grams
  /** Chance that the call for the print is then settled, either way. */
  readonly settles: number
}

/** A measurement that settles the call at least this often is worth its effort. */
export const decent = 0.5
/** A measurement that leaves more than this share of the margin's spread changes nothing. */
const unchanged = 0.98
/**
 * A measurement made already is not worth making again unless it was made this much worse than it
 * would be made now.
 */
const coarse = 2

const feedFactor = 'printer feed factor'
const startAllowance = 'printer start allowance'
const tail = 'printer tail'

const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })

/** A printer that the belief does not know: one for all prints, independent of the reel. */
const printerGiven: NextPrint = {
  feedFactor: one(feedFactor),
  startAllowance: one(startAllowance),
  meanFeedFactor: one(feedFactor),
  meanStartAllowance: one(startAllowance),
}

/** The better measurement first: those that settle it decently by effort, the rest by that chance. */
export const byWorth = (a: NextMeasure, b: NextMeasure): number =>
  Number(b.settles >= decent) - Number(a.settles >= decent) ||
  (a.settles >= decent ? a.effort_min - b.effort_min : 0) ||
  b.settles - a.settles

/**
 * The measurements that could settle the call for a print with one tool, as `nextMeasuresOfPrint`.
 */
export const nextMeasures = (
  input: VerdictInput,
  priors: Priors = defaultPriors,
): readonly NextMeasure[] => nextMeasuresOfPrint([{ tool: 0, ...input }], priors)[0]!

/**
 * For each tool, the measurements on its reel or printer that could settle the call for the whole
 * print, best first: those that settle it with a chance of one half or more by their effort, the
 * rest by that chance. What changes nothing is left out.
 *
 * @returns in the order of the tools; empty lists when the print is settled already or what it draws is in doubt, and for a tool
 *   where nothing here would help or whose facts contradict each other
 * @throws DomainError as `judge`
 * @see docs/method/verdict.md, "The next measurement"
 */
export const nextMeasuresOfPrint = (
  tools: readonly ToolInput[],
  priors: Priors = defaultPriors,
): readonly (readonly NextMeasure[])[] => {
  // No reel that is known better says more of the file.
  if (isInDoubt(tools)) return tools.map(() => [])
  const confidence = confidenceOfPrint(tools)
  const chances = tools.map(({ belief, printer = unknownPrinter, draw }): ToolChance => {
    const model = marginModel(belief, printer)
    return {
      chance: chanceOfDraw(model, draw),
      some: chanceOfSome(model),
      trusted: contradictingOf(belief).length === 0,
    }
  })
  if (callOfPrint(chances, confidence) !== 'close') return tools.map(() => [])
  return tools.map((input, place) => {
    if (!chances[place]!.trusted) return []
    const settled: Settled = (chance, some = chances[place]!.some ?? 1): boolean => {
      const then = chances.with(place, { chance, some, trusted: true })
      return callOfPrint(then, confidence) !== 'close'
    }
    return measuresOf(input, priors, settled)
  })
}

/** Whether the call is settled, by the chance that the reel lasts and that it is not empty: as now unless given. */
type Settled = (chance: number, some?: number) => boolean

const measuresOf = (
  input: VerdictInput,
  priors: Priors,
  settled: Settled,
): readonly NextMeasure[] => {
  const { belief, printer = unknownPrinter } = input
  const draw = normalised(input.draw)
  const { nextPrint = printerGiven } = belief
  const outlookUnder = (reel: JointNormal): Outlook => {
    const joint = extend(reel, {
      ...(belief.nextPrint === undefined && {
        [feedFactor]: printer.feedFactor,
        [startAllowance]: printer.startAllowance_mm,
      }),
      [tail]: printer.tail_mm,
    })
    return outlookOf({ ...belief, joint: reel }, nextPrint, printer, draw, joint)
  }
  const outlook = outlookUnder(belief.joint)
  const standIns: readonly StandIn<Outlook>[] = belief.standIns
    ? standInsOf(belief.standIns, outlookUnder)
    : [{ weight: 1, of: outlook }]
  const { joint } = outlook
  const context: MeasureContext = { belief, joint, nextPrint, priors }
  const before = marginsUnder(outlook, joint)
  const spreadBefore = mixedOf(draw, before).u
  const found: NextMeasure[] = []
  for (const measure of measures) {
    const row = measure.row(context)
    if (measure.needless?.(context) === true || isMade(measure, row, belief)) continue
    const marginSd = grams(mixedOf(draw, marginsUnder(outlook, afterRow(joint, row))).u)
    const { id, effort_min } = measure
    const instruction = (belief.another && measure.recorded) || measure.instruction
    const settles = settledChance(outlook, standIns, row, settled)
    found.push({ id, instruction, effort_min, marginSd, settles })
  }
  if (draw.length > 1) {
    const chances = draw.map((_, i) =>
      chanceGivenNet(
        standInsOf(standIns, (under) => ({
          margin: marginsUnder(under, under.joint)[i]!,
          net: marginal(under.joint, under.net),
        })),
      ),
    )
    found.push(answerFirmware(draw, before, chances, settled))
  }
  return found.filter(({ marginSd }) => marginSd < unchanged * spreadBefore).toSorted(byWorth)
}

/** The joint once a measurement is in that showed what was expected. */
const afterRow = (joint: JointNormal, row: Omit<LinearObservation, 'value'>): JointNormal =>
  condition(joint, { ...row, value: marginal(joint, row.form).value }).joint

/** True when the measurement would only repeat one that was made about as well. */
export const isMade = (
  { repeats }: Measure,
  { variance }: Omit<LinearObservation, 'value'>,
  { used }: ReelBelief,
): boolean => used.some(({ id, u }) => id === repeats && u <= coarse * Math.sqrt(variance))

/** What the chance of a draw hangs on, linear about today's means. */
interface Outlook {
  readonly joint: JointNormal
  readonly draw: readonly DrawAlternative[]
  readonly net: LinearForm
  readonly linearDensity: LinearForm
  /** The margin of each alternative. */
  readonly margins: readonly LinearForm[]
  /** What the printer uses in each alternative, m. */
  readonly used: readonly LinearForm[]
}

const outlookOf = (
  belief: ReelBelief,
  nextPrint: NextPrint,
  printer: Printer,
  draw: readonly DrawAlternative[],
  joint: JointNormal,
): Outlook => {
  const { net, linearDensity } = belief
  const { feedFactor: phi, startAllowance_mm: start, tail_mm } = printerOf(belief, printer)
  const { value: perMetre } = marginal(joint, linearDensity)
  const used = draw.map(({ peak_mm }) =>
    sumOf(scaled(nextPrint.feedFactor, peak_mm / 1000), scaled(nextPrint.startAllowance, 0.001), {
      terms: { [tail]: 0.001 },
    }),
  )
  const margins = draw.map(({ peak_mm }, i) => {
    const metres = (phi.value * peak_mm + start.value + tail_mm.value) / 1000
    // The mean of a product is more than the product of means by the covariance.
    const common = covarianceOf(joint, linearDensity, used[i]!)
    return sumOf(net, scaled(linearDensity, -metres), scaled(used[i]!, -1 * perMetre), {
      terms: {},
      constant: perMetre * metres - common,
    })
  })
  return { joint, draw, net, linearDensity, margins, used }
}

/** The margin of each alternative, to first order and with the product term, under a joint. */
const marginsUnder = (
  { linearDensity, margins, used }: Outlook,
  joint: JointNormal,
): readonly Measured[] =>
  margins.map((form, i) => {
    const { value, u } = marginal(joint, form)
    const product = marginal(joint, linearDensity).u * marginal(joint, used[i]!).u
    return { value, u: Math.hypot(u, product, covarianceOf(joint, linearDensity, used[i]!)) }
  })

const mixedOf = (draw: readonly DrawAlternative[], margins: readonly Measured[]): Measured =>
  mixture(margins.map((margin, i) => ({ ...margin, weight: draw[i]!.weight })))

/** Width of a step through what a measurement may show, in standard deviations. */
const stride = 1 / 128
/** How far to look to either side. */
const horizon = 8

/** What a reading does to the margins, under one joint. */
interface Reading {
  /** What it is expected to show. */
  readonly expected: Measured
  /** Margins and net after it, where it shows that. */
  readonly margins: readonly Measured[]
  readonly net: Measured
  /** How far each moves for one standard deviation that it shows more. */
  readonly slopes: readonly number[]
  readonly slopeOfNet: number
}

const readingUnder = (
  outlook: Outlook,
  { form, variance }: Omit<LinearObservation, 'value'>,
): Reading => {
  const { joint, net, margins } = outlook
  const { value, u } = marginal(joint, form)
  const sd = Math.hypot(u, Math.sqrt(variance))
  const after = afterRow(joint, { form, variance })
  const slope = (of: LinearForm): number => (sd === 0 ? 0 : covarianceOf(joint, of, form) / sd)
  return {
    expected: { value, u: sd },
    margins: marginsUnder(outlook, after),
    net: marginal(after, net),
    slopes: margins.map(slope),
    slopeOfNet: slope(net),
  }
}

/**
 * Chance that the call is settled once a measurement is in: every reading it may show, each with
 * its weight, and whether the chance is then beyond one of the bounds. What is known of n ≥ 0 goes
 * both into the weight of a reading and into the chance after it; so does how likely each of the
 * stand-ins makes the reading.
 */
const settledChance = (
  outlook: Outlook,
  standIns: readonly StandIn<Outlook>[],
  row: Omit<LinearObservation, 'value'>,
  settled: Settled,
): number => {
  const { expected } = readingUnder(outlook, row)
  const readings = standInsOf(standIns, (under) => readingUnder(under, row))
  if (readings.some(({ of }) => of.expected.u === 0)) return 0
  const weights = outlook.draw.map(({ weight }) => weight)
  let sum = 0
  let all = 0
  for (let z = -horizon + stride / 2; z < horizon; z += stride) {
    const shown = expected.value + expected.u * z
    let lasts = 0
    let some = 0
    let shows = 0
    for (const { weight: likely, of } of readings) {
      const { expected: its, margins, net, slopes, slopeOfNet } = of
      const off = (shown - its.value) / its.u
      const density = (likely * normalDensity(off)) / its.u
      const left = chanceOf(movedBy(net, slopeOfNet * off))
      some += density * left
      shows += density
      for (const [i, weight] of weights.entries()) {
        lasts += density * weight * Math.min(left, chanceOf(movedBy(margins[i]!, slopes[i]! * off)))
      }
    }
    all += some
    if (some > 0 && settled(Math.min(1, lasts / some), some / shows)) sum += some
  }
  return all === 0 ? 0 : sum / all
}

const movedBy = ({ value, u }: Measured, by: number): Measured => ({ value: value + by, u })

/** Saying which firmware family runs the printer leaves one alternative, by its weight. */
const answerFirmware = (
  draw: readonly DrawAlternative[],
  margins: readonly Measured[],
  chances: readonly number[],
  settled: Settled,
): NextMeasure => {
  const weightOf = (i: number): number => draw[i]!.weight
  const settles = chances.reduce((sum, chance, i) => (settled(chance) ? sum + weightOf(i) : sum), 0)
  const within = margins.reduce((sum, { u }, i) => sum + weightOf(i) * u ** 2, 0)
  return {
    id: 'name_firmware',
    instruction:
      'Say which firmware family runs this printer: the families read this file differently.',
    effort_min: 2,
    marginSd: grams(Math.sqrt(within)),
    settles,
  }
}
