import { windingDiameter } from '../../filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  millimetres,
} from '../../units/index.ts'

/** What filament is wound on, mm. */
interface Core {
  readonly hub_mm: number
  readonly width_mm: number
}

/**
 * Diameter of the winding over its outermost turn, for drawing.
 *
 * @param mass_g - below 0 counts as 0
 * @param density - g/cm³, > 0
 * @returns mm, the hub's or more
 */
export const windingEdge = (mass_g: number, { hub_mm, width_mm }: Core, density: number): number =>
  windingDiameter(
    measured(grams(Math.max(mass_g, 0)), 0),
    { hub: measured(millimetres(hub_mm), 0), width: measured(millimetres(width_mm), 0) },
    measured(gramsPerCubicCentimetre(density), 0),
  ).value

/** The winding's diameter at its likeliest and one standard uncertainty to both sides, mm. */
export interface EdgeBand {
  readonly inner: number
  readonly likely: number
  readonly outer: number
}

/**
 * Where the winding ends, as surely as its mass is known.
 *
 * @returns from the hub to the flange: what would stand out over it is drawn at it
 */
export function edgeBand(
  net_g: Measured,
  carrier: Core & { readonly flange_mm: number },
  density: number,
): EdgeBand {
  const at = (mass: number): number =>
    Math.min(windingEdge(mass, carrier, density), carrier.flange_mm)
  return {
    inner: at(net_g.value - net_g.u),
    likely: at(net_g.value),
    outer: at(net_g.value + net_g.u),
  }
}
