import { netOf, type ReelBelief, type UsedObservation } from '../estimate/index.ts'
import type { Layers } from '../print/index.ts'
import {
  DomainError,
  type Grams,
  grams,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import { type ChangePoint, changePoint } from './change-point.ts'
import { type DrawAlternative, normalised } from './draw-alternative.ts'
import { availableDraw, chanceAt, chanceOfSome, leftOverAt, marginAt, neededAt } from './margin.ts'
import { type MarginModel, marginModel } from './margin-model.ts'
import { type Printer, unknownPrinter } from './printer.ts'
import { type RunDry, runDryOf } from './run-dry.ts'

/** Will the reel finish the print: yes, too close to call, or no. */
export type Verdict = 'enough' | 'close' | 'short'

/** One tool of one print against one reel on one printer. */
export interface VerdictInput {
  readonly belief: ReelBelief
  /**
   * A printer nobody has measured unless given. A belief that knows the next print on its printer
   * (`nextPrint`) takes only the tail from here.
   */
  readonly printer?: Printer
  /** At least one; see `DrawAlternative`. */
  readonly draw: readonly DrawAlternative[]
  readonly layers?: Layers
  /** c, more than 0.5 and less than 1; 0.95 unless given. */
  readonly confidence?: number
  /** True where the file may not say all that the print draws: no reel is enough then. */
  readonly inDoubt?: boolean
}

/** What holds under one reading of the draw. */
export interface AlternativeVerdict {
  readonly label: string | null
  readonly weight: number
  readonly verdict: Verdict
  readonly chance: number
  /** What the print takes, start allowance included and tail not: λ·(φ·L + s). */
  readonly needed: Measured<Grams>
  /** Net less needed less the unprintable tail. */
  readonly margin: Measured<Grams>
  /** On the reel after the print, tail included; negative is what is missing. */
  readonly leftOver: Measured<Grams>
  /** Asked by the file. */
  readonly neededDraw_mm: Millimetres
  readonly runDry: RunDry
}

/** The answer for one tool. Figures weigh all alternatives; the run-dry points are the likeliest's. */
export interface ToolVerdict
  extends Omit<AlternativeVerdict, 'label' | 'weight' | 'neededDraw_mm'> {
  readonly confidence: number
  /** Chance that anything is on the reel, which all else here takes for granted. */
  readonly some: number
  readonly net: Measured<Grams>
  /** Asked by the file; u is the spread between alternatives. */
  readonly neededDraw_mm: Measured<Millimetres>
  /** What can still be asked of this reel on this printer. */
  readonly availableDraw_mm: Measured<Millimetres>
  readonly changeBefore: ChangePoint | null
  /** Facts that lie too far off the others; while there is one the call is *close*. */
  readonly contradicting: readonly UsedObservation[]
  /** Each alternative's own results, heaviest first; empty when there is only one. */
  readonly alternatives: readonly AlternativeVerdict[]
}

/**
 * The call at a confidence c: enough from a chance of c up, short from 1 − c down, else close.
 *
 * @param some - chance that the reel is not empty: the other takes it that it is not, so it is no more
 *   than close where this is below c
 */
export const callOf = (chance: number, confidence: number, some = 1): Verdict => {
  if (Math.min(chance, some) >= confidence) return 'enough'
  return chance <= 1 - confidence ? 'short' : 'close'
}

/** The call for a print: of one that may draw more than its file says no reel is enough. */
export const callInDoubt = (call: Verdict, inDoubt = false): Verdict =>
  inDoubt && call === 'enough' ? 'close' : call

/** The facts of a reel that lie too far off the others. */
export const contradictingOf = ({ used }: ReelBelief): readonly UsedObservation[] =>
  used.filter(({ surprising }) => surprising)

/**
 * Whether a reel will finish a print, how sure that is, where it runs dry if not, and the last
 * layer end at which changing reels is still safe.
 *
 * A belief in which one fact contradicts the others gives neither *enough* nor *short*: a chance
 * reckoned from facts of which one is wrong is worth nothing beyond them.
 *
 * @throws DomainError `confidence_out_of_range`, `no_draw`, `weight_not_positive`, `draw_negative`
 * @see docs/method/verdict.md
 */
export const judge = (input: VerdictInput): ToolVerdict => {
  const { belief, printer = unknownPrinter, layers, inDoubt } = input
  const confidence = confidenceOf(input)
  const draw = normalised(input.draw)
  const model = marginModel(belief, printer)
  const contradicting = contradictingOf(belief)
  const some = chanceOfSome(model)
  const call = (chance: number): Verdict =>
    contradicting.length > 0 ? 'close' : callInDoubt(callOf(chance, confidence, some), inDoubt)
  const each = draw.map((alternative) => judgeAlternative(model, alternative, layers, call))
  const chance = each.reduce((sum, one) => sum + one.weight * one.chance, 0)
  const likeliest = each[0]!
  const length = mixture(
    each.map((one) => ({ weight: one.weight, value: one.neededDraw_mm, u: 0 })),
  )
  return {
    verdict: call(chance),
    chance,
    some,
    confidence,
    net: netOf(belief),
    needed: mixed(each, ({ needed }) => needed),
    margin: mixed(each, ({ margin }) => margin),
    leftOver: mixed(each, ({ leftOver }) => leftOver),
    neededDraw_mm: measured(millimetres(length.value), length.u),
    availableDraw_mm: availableDraw(model),
    runDry: likeliest.runDry,
    // Nothing is safe by figures that contradict each other.
    changeBefore: contradicting.length > 0 ? null : changePoint(model, draw, layers, confidence),
    contradicting,
    alternatives: each.length > 1 ? each : [],
  }
}

/** The confidence asked for. @throws DomainError `confidence_out_of_range` */
export const confidenceOf = ({ confidence = 0.95 }: VerdictInput): number => {
  if (!(confidence > 0.5 && confidence < 1)) {
    throw new DomainError(
      'confidence_out_of_range',
      `a confidence lies between 0.5 and 1, not at ${confidence}`,
    )
  }
  return confidence
}

const judgeAlternative = (
  model: MarginModel,
  alternative: DrawAlternative,
  layers: Layers | undefined,
  call: (chance: number) => Verdict,
): AlternativeVerdict => {
  const { peak_mm, weight, label = null } = alternative
  const chance = chanceAt(model, peak_mm)
  return {
    label,
    weight,
    verdict: call(chance),
    chance,
    needed: neededAt(model, peak_mm),
    margin: marginAt(model, peak_mm),
    leftOver: leftOverAt(model, peak_mm),
    neededDraw_mm: millimetres(peak_mm),
    runDry: runDryOf(model, alternative, layers),
  }
}

const mixed = (
  each: readonly AlternativeVerdict[],
  part: (one: AlternativeVerdict) => Measured<Grams>,
): Measured<Grams> => {
  const { value, u } = mixture(each.map((one) => ({ weight: one.weight, ...part(one) })))
  return measured(grams(value), u)
}

/** Mean and standard deviation of a mixture: the spread within and the spread between. */
export const mixture = (parts: readonly (Measured & { readonly weight: number })[]): Measured => {
  const value = parts.reduce((sum, part) => sum + part.weight * part.value, 0)
  const variance = parts.reduce(
    (sum, part) => sum + part.weight * (part.u ** 2 + (part.value - value) ** 2),
    0,
  )
  return measured(value, Math.sqrt(variance))
}
