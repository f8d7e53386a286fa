import {
  DomainError,
  type Measured,
  type Millimetres,
  measured,
  type Pair,
  type SquareMillimetres,
  squareMillimetres,
} from '../units/index.ts'
import type { Caliper } from './caliper.ts'
import { requirePositive } from './require-positive.ts'
import type { Source } from './source.ts'

/** What is known of how a cross-section varies along a filament before it is measured. */
export interface Scatter {
  /** Standard deviation of the diameter from place to place, as a share of the diameter. */
  readonly relative: number
  /** How many degrees of freedom this knowledge is worth against measured places. */
  readonly weight: number
  readonly source: Source
}

/** A maker's ±0.03 mm on 1.75 mm read as uniform, worth as much as four measured places. */
export const customaryScatter: Scatter = {
  relative: 0.01,
  weight: 3,
  source: {
    standing: 'common practice, no source',
    where: 'customary tolerance of ±0.02 to ±0.05 mm on 1.75 mm',
  },
}

/**
 * Cross-section of round filament, A = π/4·d².
 *
 * @param diameter - mm, > 0
 * @returns mm², first order: u(A) = π/2·d·u(d)
 * @throws DomainError `diameter_not_positive`
 */
export const crossSection = (diameter: Measured<Millimetres>): Measured<SquareMillimetres> => {
  requirePositive(diameter, 'diameter_not_positive')
  const { value: d, u } = diameter
  return measured(squareMillimetres((Math.PI / 4) * d ** 2), (Math.PI / 2) * d * u)
}

/**
 * Mean cross-section of filament measured at several places, two diameters square to each other at
 * each: the mean of the areas π/4·d₁·d₂, not the area of the mean diameter.
 *
 * With n places, u² = S²/n + R²/n + E², where
 * - S² = (ν₀·S₀² + (n−1)·s²)/(ν₀ + n−1): the scatter s of the areas found, steadied by what is
 *   known beforehand (S₀ = 2·scatter.relative·A, ν₀ = scatter.weight), so that one place is not
 *   taken for the whole reel;
 * - R² is the mean over the places of the rounding of the display, step/√12 (shared by both
 *   readings of a place, so that one reading entered twice earns nothing), and of the u typed with
 *   the readings;
 * - E is the error of the calipers, the same at every place, which no number of places averages out.
 *
 * @param places - one or more; diameters in mm, > 0
 * @throws DomainError `no_places`, `diameter_not_positive`
 * @see JCGM 100:2008, 4.2.3 (mean of n), 4.3.7 (rounding), 5.1.2
 */
export const crossSectionOfPlaces = (
  places: readonly Pair[],
  caliper: Caliper,
  scatter: Scatter = customaryScatter,
): Measured<SquareMillimetres> => {
  const n = places.length
  if (n === 0) throw new DomainError('no_places', 'a cross-section needs at least one place')
  let areaSum = 0
  let slopeSum = 0
  let readingVariance = 0
  const areas: number[] = []
  for (const [first, second] of places) {
    requirePositive(first, 'diameter_not_positive')
    requirePositive(second, 'diameter_not_positive')
    const area = (Math.PI / 4) * first.value * second.value
    // mm² per mm by which both readings of this place are off together.
    const slope = (Math.PI / 4) * (first.value + second.value)
    areas.push(area)
    areaSum += area
    slopeSum += slope
    readingVariance +=
      (slope ** 2 * caliper.step ** 2) / 12 +
      (Math.PI / 4) ** 2 * ((second.value * first.u) ** 2 + (first.value * second.u) ** 2)
  }
  const mean = areaSum / n
  const squares = areas.reduce((sum, area) => sum + (area - mean) ** 2, 0)
  const known = scatter.weight * (2 * scatter.relative * mean) ** 2
  const freedom = scatter.weight + n - 1
  const scatterVariance = freedom > 0 ? (known + squares) / freedom : 0
  const common = (slopeSum / n) * caliper.error
  return measured(
    squareMillimetres(mean),
    Math.sqrt((scatterVariance + readingVariance / n) / n + common ** 2),
  )
}
