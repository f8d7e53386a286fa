import { marginal, normalQuantile, standInsOf, type WorkBelief } from '../estimate/index.ts'
import { type Grams, grams, type Measured, measured } from '../units/index.ts'
import {
  chanceAt,
  chanceOf,
  leftOverAt,
  type MarginModel,
  mixture,
  neededAt,
  type WorkModel,
  type WorkPart,
  workReckoner,
} from '../verdict/index.ts'
import { type CompiledSlate, type Piece, tailsOf } from './compiled-slate.ts'
import { drawScenarios } from './draw-scenarios.ts'
import { spreadOfItsOwn } from './spread-of-its-own.ts'

/** What one reel is asked to do: pieces, each of another task or of the same task on either side of a change. */
export type Load = readonly Piece[]

/** Judges what one reel is asked to do, as the verdict would, beside what runs on it already. */
export interface LoadJudge {
  /** Chance that the reel lasts for all of it and for what runs; 1 for nothing. */
  readonly chance: (load: Load) => number
  /** Whether it lasts with what the most demanding piece asks. */
  readonly isSafe: (load: Load) => boolean
  /** What is on it, with nothing taken, g. */
  readonly holds: Measured<Grams>
  /** What is left afterwards, tail included, g. */
  readonly left: (load: Load) => Measured<Grams>
  /** Its mean alone, g, at once: what is left without, less what each piece takes. */
  readonly meanLeft: (load: Load) => number
  /** What one piece takes, g. */
  readonly needed: (piece: Piece) => Measured<Grams>
  /** What one piece takes at least on average, g: of several readings of its file the shortest. */
  readonly weight: (piece: Piece) => number
  /** No safe load weighs more, g. */
  readonly capacity: number
  /**
   * How much more would have to be on the reel for the load to be safe, g; 0 where it is, and ∞ where it is
   * more than `most`.
   */
  readonly short: (load: Load, most?: number) => Grams
}

/** The work that a load makes under one reading of the files. */
interface Weighed {
  readonly weight: number
  readonly work: WorkModel
}

/** The judge of one reel. */
export const loadJudge = (slate: CompiledSlate, reel: number): LoadJudge => {
  const { printers } = slate
  const running = slate.running.get(reel) ?? []
  const { belief } = slate.reels[reel]!
  const reckon = workReckoner(belief, tailsOf(printers))
  const partOf = ({ printer, change_mm }: Piece, length_mm: number): WorkPart => ({
    printer: printers[printer]!.id,
    length_mm,
    starts: change_mm === null,
    ...(change_mm && { change_mm }),
  })
  // Whether a load is safe is asked first, and then what it leaves: the work is reckoned once for both.
  let last: { readonly load: Load; readonly models: readonly Weighed[] } | null = null
  const models = (load: Load): readonly Weighed[] => {
    if (last && isSame(last.load, load)) return last.models
    const all = [...running, ...load]
    const found = drawScenarios(all).map(({ weight, lengths }) => ({
      weight,
      work: reckon(all.map((piece, i) => partOf(piece, lengths[i]!))),
    }))
    last = { load, models: found }
    return found
  }
  const chance = (load: Load): number =>
    load.length + running.length === 0 ? 1 : chanceWith(models(load), 0)
  const short = (load: Load, most = mostShort): Grams => {
    const all = models(load)
    const asked = askedOf(load)
    if (load.length === 0 || chanceWith(all, 0) >= asked) return grams(0)
    if (chanceWith(all, most) < asked) return grams(Infinity)
    let low = 0
    let high = 1
    while (chanceWith(all, high) < asked) {
      low = high
      high *= 2
    }
    // Thirty halvings are finer than a milligram.
    for (let i = 0; i < 30; i++) {
      const middle = (low + high) / 2
      if (chanceWith(all, middle) < asked) low = middle
      else high = middle
    }
    return grams(high)
  }
  const mixed = (of: readonly Weighed[], part: (work: WorkModel) => Measured): Measured<Grams> => {
    const { value, u } = mixture(
      of.map(({ weight, work }) => {
        const { value: mean, u: spread } = part(work)
        return { weight, value: mean, u: spread }
      }),
    )
    return measured(grams(value), u)
  }
  const needed = (piece: Piece): Measured<Grams> =>
    mixed(
      piece.lengths.map(({ weight, length_mm }) => ({
        weight,
        work: reckon([partOf(piece, length_mm)]),
      })),
      ({ model, draw_mm }) => neededAt(model, draw_mm),
    )
  const left = (load: Load): Measured<Grams> =>
    mixed(models(load), ({ model, draw_mm }) => leftOverAt(model, draw_mm))
  const alone = left([]).value
  const means = new Map<Piece, number>()
  const meanNeeded = (piece: Piece): number => {
    const known = means.get(piece)
    if (known !== undefined) return known
    const mean = needed(piece).value
    means.set(piece, mean)
    return mean
  }
  const weight = (piece: Piece): number => {
    const shortest = Math.min(...piece.lengths.map(({ length_mm }) => length_mm))
    const { model, draw_mm } = reckon([partOf(piece, shortest)])
    return Math.min(...allOf(model).map((one) => unboundedNeed(one, draw_mm)))
  }
  const capacity = Math.max(
    ...standInsOf(belief.standIns ?? [{ weight: 1, of: belief }], (one) =>
      capacityOf(one, slate.confidence),
    ).map(({ of }) => of),
  )
  return {
    chance,
    isSafe: (load) => chance(load) >= askedOf(load),
    holds:
      running.length === 0
        ? left([])
        : mixed([{ weight: 1, work: reckon([]) }], ({ model, draw_mm }) =>
            leftOverAt(model, draw_mm),
          ),
    left,
    // Means add up, whatever hangs on what.
    meanLeft: (load) => load.reduce<number>((sum, piece) => sum - meanNeeded(piece), alone),
    needed,
    weight,
    capacity: Math.max(
      0,
      running.reduce((rest, piece) => rest - weight(piece), capacity),
    ),
    short,
  }
}

const isSame = (a: Load, b: Load): boolean =>
  a.length === b.length && a.every((piece, i) => piece === b[i])

/** What a draw takes on average, g, as if the net had no bound: that of a load is the sum of its pieces'. */
const unboundedNeed = ({ linearDensity, printer, between }: MarginModel, draw: number): number => {
  const { feedFactor, startAllowance_mm: start } = printer
  const common = between ? between.linearDensityFeed * draw + between.linearDensityStart : 0
  return (linearDensity.value * (feedFactor.value * draw + start.value) + common) / 1000
}

/**
 * A margin that is above 0 with a chance c of more than a half has a mean of at least z(c) times its
 * spread, and that is at least the spread of the net's own. The chance asked is given that the net is above
 * 0, which makes c less; where it is no more than a half nothing is known.
 */
const capacityOf = (belief: Omit<WorkBelief, 'standIns'>, confidence: number): number => {
  const net = marginal(belief.joint, belief.net)
  const chance = confidence * chanceOf(net)
  if (chance < 0.5) return Infinity
  return Math.max(0, net.value - normalQuantile(chance) * spreadOfItsOwn(belief))
}

/** More than any load is short of, g: a doubt that grows with what is on the reel is never met. */
const mostShort = 1e6

/** A model, or all that stand for it. */
const allOf = (model: MarginModel): readonly MarginModel[] =>
  model.standIns === undefined ? [model] : model.standIns.map(({ of }) => of)

const withMore = (model: MarginModel, more: number): MarginModel => ({
  ...model,
  net: measured(model.net.value + more, model.net.u),
  ...(model.standIns && { standIns: standInsOf(model.standIns, (one) => withMore(one, more)) }),
})

/** The chance with so much more on the reel, g. */
const chanceWith = (models: readonly Weighed[], more: number): number =>
  models.reduce((sum, { weight, work: { model, draw_mm } }) => {
    return sum + weight * chanceAt(withMore(model, more), draw_mm)
  }, 0)

/** The chance with which a reel must last: what the most demanding piece asks; 0 for nothing. */
export const askedOf = (load: Load): number =>
  load.reduce((most, { confidence }) => Math.max(most, confidence), 0)
