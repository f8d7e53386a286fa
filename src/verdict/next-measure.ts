import {
  condition,
  defaultPriors,
  extend,
  type JointNormal,
  type LinearForm,
  linearDensityOf,
  marginal,
  normalCdf,
  type Priors,
  scaled,
  sumOf,
} from '../estimate/index.ts'
import { type Grams, grams, type Measured } from '../units/index.ts'
import { type DrawAlternative, normalised } from './draw-alternative.ts'
import { chanceOf, reachOf } from './margin.ts'
import { type Measure, type MeasureContext, measures } from './measure.ts'
import { type Printer, unknownPrinter } from './printer.ts'
import { callOf, confidenceOf, mixture, type VerdictInput } from './verdict.ts'

/** What one measurement would do for the call. */
export interface NextMeasure {
  /** Stable, snake_case. */
  readonly id: string
  readonly instruction: string
  readonly effort_min: number
  /** Standard deviation of the margin after it, g. */
  readonly marginSd: Grams
  /** Chance that the call is then settled, either way. */
  readonly settles: number
}

/** A measurement that settles the call at least this often is worth its effort. */
const decent = 0.5
/** A measurement that leaves more than this share of the margin's spread changes nothing. */
const unchanged = 0.98

const feedFactor = 'printer feed factor'
const startAllowance = 'printer start allowance'
const tail = 'printer tail'

/**
 * The measurements that could settle a call, best first: those that settle it with a chance of one
 * half or more by their effort, the rest by that chance. What changes nothing is left out.
 *
 * @returns empty when the call is settled already, or nothing here would help
 * @throws DomainError as `judge`
 * @see docs/method/verdict.md, "The next measurement"
 */
export const nextMeasures = (
  input: VerdictInput,
  priors: Priors = defaultPriors,
): readonly NextMeasure[] => {
  const { belief, printer = unknownPrinter } = input
  const confidence = confidenceOf(input)
  const draw = normalised(input.draw)
  const joint = extend(belief.joint, {
    [feedFactor]: printer.feedFactor,
    [startAllowance]: printer.startAllowance_mm,
    [tail]: printer.tail_mm,
  })
  const context: MeasureContext = { belief, joint, feedFactor, startAllowance, priors }
  const before = marginsOf(input, printer, draw, joint)
  if (callOf(mixedChance(draw, before), confidence) !== 'close') return []
  const spreadBefore = mixedOf(draw, before).u
  const made = new Set(belief.used.map(({ id }) => id))
  const open = measures.filter(({ repeats }) => repeats === undefined || !made.has(repeats))
  const found = open.map((measure): NextMeasure => {
    const after = marginsOf(input, printer, draw, afterwards(measure, context))
    const marginSd = grams(mixedOf(draw, after).u)
    const settles = settledChance(draw, before, after, confidence)
    const { id, instruction, effort_min } = measure
    return { id, instruction, effort_min, marginSd, settles }
  })
  if (draw.length > 1) found.push(answerFirmware(draw, before, confidence))
  return found
    .filter(({ marginSd }) => marginSd < unchanged * spreadBefore)
    .toSorted(
      (a, b) =>
        Number(b.settles >= decent) - Number(a.settles >= decent) ||
        (a.settles >= decent ? a.effort_min - b.effort_min : 0) ||
        b.settles - a.settles,
    )
}

/** The joint after a measurement that showed just what was expected: its spread is what counts. */
const afterwards = (measure: Measure, context: MeasureContext): JointNormal =>
  measure.rows(context).reduce((joint, { form, variance }) => {
    const { value } = marginal(joint, form)
    return condition(joint, { form, value, variance }).joint
  }, context.joint)

/** The margin of each alternative, to first order and with the product term, under a joint. */
const marginsOf = (
  { belief }: VerdictInput,
  printer: Printer,
  draw: readonly DrawAlternative[],
  joint: JointNormal,
): readonly Measured[] => {
  const { value: perMetre } = linearDensityOf(belief)
  const { feedFactor: phi, startAllowance_mm: start, tail_mm } = printer
  return draw.map(({ peak_mm }) => {
    const metres = (phi.value * peak_mm + start.value + tail_mm.value) / 1000
    const used: LinearForm = {
      terms: { [feedFactor]: peak_mm / 1000, [startAllowance]: 0.001, [tail]: 0.001 },
    }
    const form = sumOf(
      belief.net,
      scaled(belief.linearDensity, -metres),
      scaled(used, -1 * perMetre),
      {
        terms: {},
        constant: perMetre * metres,
      },
    )
    const { value, u } = marginal(joint, form)
    const product = marginal(joint, belief.linearDensity).u * marginal(joint, used).u
    return { value, u: Math.hypot(u, product) }
  })
}

const mixedOf = (draw: readonly DrawAlternative[], margins: readonly Measured[]): Measured =>
  mixture(margins.map((margin, i) => ({ ...margin, weight: draw[i]!.weight })))

const mixedChance = (
  draw: readonly DrawAlternative[],
  margins: readonly Measured[],
  shift = 0,
): number =>
  margins.reduce(
    (sum, { value, u }, i) => sum + draw[i]!.weight * chanceOf({ value: value + shift, u }),
    0,
  )

/**
 * Chance that the call is settled once a measurement is in. Before it is made, the margin it will
 * lead to is normal about today's with variance sd₀² − sd₁²; the call is then settled when the
 * chance, taken with sd₁, passes c or falls to 1 − c. With one alternative that is |m′| ≥ z·sd₁.
 */
const settledChance = (
  draw: readonly DrawAlternative[],
  before: readonly Measured[],
  after: readonly Measured[],
  confidence: number,
): number => {
  const was = before[0]!
  const is = after[0]!
  const travel = Math.sqrt(Math.max(0, was.u ** 2 - is.u ** 2))
  if (travel === 0) return 0
  const reach = reachOf(confidence)
  const farthest = Math.max(...after.map(({ value, u }) => Math.abs(value) + (reach + 8) * u)) + 1
  const shiftTo = (chance: number): number => {
    let low = -farthest
    let high = farthest
    for (let i = 0; i < 80; i++) {
      const middle = (low + high) / 2
      if (mixedChance(draw, after, middle) < chance) low = middle
      else high = middle
    }
    return (low + high) / 2
  }
  const up = normalCdf(-shiftTo(confidence) / travel)
  const down = normalCdf(shiftTo(1 - confidence) / travel)
  return Math.min(1, up + down)
}

/** Saying which firmware family runs the printer leaves one alternative, by its weight. */
const answerFirmware = (
  draw: readonly DrawAlternative[],
  margins: readonly Measured[],
  confidence: number,
): NextMeasure => {
  const weightOf = (i: number): number => draw[i]!.weight
  const settles = margins.reduce(
    (sum, margin, i) =>
      callOf(chanceOf(margin), confidence) === 'close' ? sum : sum + weightOf(i),
    0,
  )
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
