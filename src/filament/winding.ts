import {
  accept,
  DomainError,
  type Grams,
  type GramsPerCubicCentimetre,
  grams,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
  type Outcome,
  refuse,
  type SquareMillimetres,
} from '../units/index.ts'
import { customaryPacking } from './packing.ts'
import { requirePositive } from './require-positive.ts'

const cubicMillimetresPerCubicCentimetre = 1000

/** The hollow cylinder into which filament is wound. */
export interface Hub {
  /** Diameter the first layer sits on, mm. */
  readonly hub: Measured<Millimetres>
  /** Between the flanges, mm. */
  readonly width: Measured<Millimetres>
}

/** A hub with what is wound on it. */
export interface Winding extends Hub {
  /** Over the outermost layer, mm; not the flange. */
  readonly outer: Measured<Millimetres>
}

/**
 * Volume of filament on a reel, k·π/4·(D² − H²)·w, in mm³. Refusals: `hub_not_positive`,
 * `width_not_positive`, `winding_below_hub`.
 */
const filledVolume = ({ hub, width, outer }: Winding, packing: Measured): Outcome<Measured> => {
  requirePositive(packing, 'packing_not_positive')
  const [H, w, D] = [hub.value, width.value, outer.value]
  if (!(H > 0)) {
    return refuse({
      code: 'hub_not_positive',
      message: `A hub of ${H} mm can not be wound on. Measure the diameter the innermost layer sits on.`,
      received: `${H} mm`,
    })
  }
  if (!(w > 0)) {
    return refuse({
      code: 'width_not_positive',
      message: `A width of ${w} mm holds nothing. Measure between the insides of the flanges.`,
      received: `${w} mm`,
    })
  }
  if (!(D >= H)) {
    return refuse({
      code: 'winding_below_hub',
      message: `The winding, ${D} mm, is smaller than its hub, ${H} mm. Give diameters, not depths or radii, and check that they are not swapped.`,
      expected: `${H} mm or more`,
      received: `${D} mm`,
    })
  }
  const quarter = Math.PI / 4
  const ring = quarter * (D ** 2 - H ** 2)
  return accept(
    measured(
      packing.value * ring * w,
      Math.hypot(
        packing.u * ring * w,
        packing.value * ring * width.u,
        packing.value * w * 2 * quarter * D * outer.u,
        packing.value * w * 2 * quarter * H * hub.u,
      ),
    ),
  )
}

/**
 * Net mass on a reel from the size of its winding. A rough measurement, but one that needs neither
 * scale nor tare.
 *
 * @param density - g/cm³, > 0
 * @param packing - share of the winding filled by filament, > 0
 * @returns grams, first order, all taken as independent; 0 g when the winding is down to the hub;
 *   refusals `hub_not_positive`, `width_not_positive`, `winding_below_hub`
 * @throws DomainError `density_not_positive`, `packing_not_positive`
 */
export const massOfWinding = (
  winding: Winding,
  density: Measured<GramsPerCubicCentimetre>,
  packing: Measured = customaryPacking,
): Outcome<Measured<Grams>> => {
  requirePositive(density, 'density_not_positive')
  const volume = filledVolume(winding, packing)
  if (!volume.ok) return volume
  const { value, u } = volume.value
  return accept(
    measured(
      grams((density.value * value) / cubicMillimetresPerCubicCentimetre),
      Math.hypot(density.value * u, density.u * value) / cubicMillimetresPerCubicCentimetre,
    ),
  )
}

/**
 * Length on a reel from the size of its winding and the cross-section of the filament.
 *
 * @param area - mm², > 0
 * @param packing - share of the winding filled by filament, > 0
 * @returns millimetres, first order, all taken as independent; refusals as `massOfWinding`
 * @throws DomainError `area_not_positive`, `packing_not_positive`
 */
export const lengthOfWinding = (
  winding: Winding,
  area: Measured<SquareMillimetres>,
  packing: Measured = customaryPacking,
): Outcome<Measured<Millimetres>> => {
  requirePositive(area, 'area_not_positive')
  const volume = filledVolume(winding, packing)
  if (!volume.ok) return volume
  const { value, u } = volume.value
  const length = value / area.value
  return accept(
    measured(millimetres(length), Math.hypot(u / area.value, (length * area.u) / area.value)),
  )
}

/**
 * Diameter of the winding that holds a mass, D = √(H² + 4m/(π·w·k·ρ)), to draw a reel to scale.
 *
 * @param mass - grams, ≥ 0
 * @param density - g/cm³, > 0
 * @param packing - share of the winding filled by filament, > 0
 * @returns millimetres ≥ hub, first order, all taken as independent
 * @throws DomainError `hub_not_positive`, `width_not_positive`, `density_not_positive`,
 *   `packing_not_positive`, `mass_negative`
 */
export const windingDiameter = (
  mass: Measured<Grams>,
  { hub, width }: Hub,
  density: Measured<GramsPerCubicCentimetre>,
  packing: Measured = customaryPacking,
): Measured<Millimetres> => {
  requirePositive(hub, 'hub_not_positive')
  requirePositive(width, 'width_not_positive')
  requirePositive(density, 'density_not_positive')
  requirePositive(packing, 'packing_not_positive')
  if (!(mass.value >= 0)) throw new DomainError('mass_negative', `${mass.value} g is no winding`)
  const perGram =
    (4 * cubicMillimetresPerCubicCentimetre) /
    (Math.PI * width.value * packing.value * density.value)
  const ring = perGram * mass.value
  const diameter = Math.sqrt(hub.value ** 2 + ring)
  const squared = Math.hypot(
    2 * hub.value * hub.u,
    perGram * mass.u,
    ring * (width.u / width.value),
    ring * (packing.u / packing.value),
    ring * (density.u / density.value),
  )
  return measured(millimetres(diameter), squared / (2 * diameter))
}
