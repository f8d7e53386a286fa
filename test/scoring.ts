/** A chance that was stated, and whether what it spoke of happened. */
export interface Forecast {
  /** 0 to 1 */
  readonly chance: number
  readonly happened: boolean
  /** Forecasts of one group may go wrong together; each stands for itself unless given. */
  readonly group?: number
}

const meanOf = <T>(rows: readonly T[], value: (row: T) => number): number =>
  rows.reduce((sum, row) => sum + value(row), 0) / rows.length

/** Mean squared distance between chance and what happened: 0 is best, 0.25 is always saying ½. */
export const brierScore = (forecasts: readonly Forecast[]): number =>
  meanOf(forecasts, ({ chance, happened }) => (chance - Number(happened)) ** 2)

/**
 * Mean of −ln of the chance that was given to what then happened: 0 is best, ln 2 is always ½.
 *
 * @param least - chances nearer to 0 or 1 are taken as this near, so that one sure mistake is not ∞
 */
export const logScore = (forecasts: readonly Forecast[], least = 1e-6): number =>
  meanOf(forecasts, ({ chance, happened }) => {
    const given = happened ? chance : 1 - chance
    return -Math.log(Math.min(1 - least, Math.max(least, given)))
  })

/** Forecasts that were taken together, and what came of them. */
export interface ForecastGroup {
  /** How many, or their share of all: only the proportion counts. */
  readonly weight: number
  /** The chance that stands for them all. */
  readonly stated: number
  /** Share that happened. */
  readonly observed: number
}

/** Brier score = reliability − resolution + uncertainty. */
export interface MurphyParts {
  /** How far stated and observed are apart: 0 is best. */
  readonly reliability: number
  /** How far the groups differ from the base rate: more is better. */
  readonly resolution: number
  /** What always saying the base rate would score. */
  readonly uncertainty: number
}

/**
 * The parts of the Brier score. Their sum is the score itself when all of a group were given the same
 * chance; where a group stands for a range of chances the spread inside it is left out
 * (Stephenson, Coelho and Jolliffe 2008).
 *
 * @see A. H. Murphy, J. Appl. Meteor. 12 (1973) 595–600, from memory
 */
export const murphyDecomposition = (groups: readonly ForecastGroup[]): MurphyParts => {
  const all = groups.reduce((sum, { weight }) => sum + weight, 0)
  const mean = (of: (group: ForecastGroup) => number): number =>
    groups.reduce((sum, group) => sum + group.weight * of(group), 0) / all
  const base = mean(({ observed }) => observed)
  return {
    reliability: mean(({ stated, observed }) => (stated - observed) ** 2),
    resolution: mean(({ observed }) => (observed - base) ** 2),
    uncertainty: base * (1 - base),
  }
}

/** One line of a reliability table. */
export interface ReliabilityBin extends ForecastGroup {
  readonly low: number
  readonly high: number
  /** Standard error of observed less stated, groups kept whole. */
  readonly error: number
}

/**
 * Chances stated against what happened, bin by bin; `weight` is the count. Empty bins are left out.
 *
 * @param edges - ascending; a chance on an edge falls into the bin above, 1 into the last
 */
export const reliabilityBins = (
  forecasts: readonly Forecast[],
  edges: readonly number[],
): readonly ReliabilityBin[] =>
  edges.slice(1).flatMap((high, place) => {
    const low = edges[place]!
    const last = place === edges.length - 2
    const inside = forecasts.filter(({ chance }) => chance >= low && (chance < high || last))
    if (inside.length === 0) return []
    return {
      low,
      high,
      weight: inside.length,
      stated: meanOf(inside, ({ chance }) => chance),
      observed: meanOf(inside, ({ happened }) => Number(happened)),
      error: groupedError(inside),
    }
  })

/** √(Σ over groups of the square of its sum of happened less chance), over the count. */
const groupedError = (forecasts: readonly Forecast[]): number => {
  const sums = new Map<number, number>()
  for (const [place, { chance, happened, group = -1 - place }] of forecasts.entries()) {
    sums.set(group, (sums.get(group) ?? 0) + Number(happened) - chance)
  }
  const squares = [...sums.values()].reduce((sum, each) => sum + each ** 2, 0)
  return Math.sqrt(squares) / forecasts.length
}
