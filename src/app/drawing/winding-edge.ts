import type { Measured } from '../../units/index.ts'
import type { CarrierSize } from './carrier-size.ts'

/** What is wound: grams on the reel, and how dense it is. */
export interface Wound {
  readonly net_g: Measured
  readonly density_g_per_cm3: number
}

/** Half-way between turns stacked and nested, as the estimate takes it too. */
const packing = (Math.PI / 4 + Math.PI / (2 * Math.sqrt(3))) / 2

/**
 * Diameter of the winding over its outermost turn, D = √(H² + 4m/(π·w·k·ρ)), for drawing.
 *
 * @param mass_g - below 0 counts as 0
 * @param density - g/cm³; 1.24 stands in for what is not above 0
 * @returns mm, from the hub to the flange: more than fits is drawn full
 */
export function windingEdge(mass_g: number, carrier: CarrierSize, density: number): number {
  const ρ = density > 0 ? density : 1.24
  const ring = (4000 * Math.max(mass_g, 0)) / (Math.PI * carrier.width_mm * packing * ρ)
  return Math.min(Math.sqrt(carrier.hub_mm ** 2 + ring), carrier.flange_mm)
}

/** The winding's diameter at its likeliest and one standard uncertainty to both sides, mm. */
export interface EdgeBand {
  readonly inner: number
  readonly likely: number
  readonly outer: number
}

/** Where the winding ends, as surely as its mass is known. */
export function edgeBand(
  { net_g, density_g_per_cm3: density }: Wound,
  carrier: CarrierSize,
): EdgeBand {
  const at = (mass: number): number => windingEdge(mass, carrier, density)
  return {
    inner: at(net_g.value - net_g.u),
    likely: at(net_g.value),
    outer: at(net_g.value + net_g.u),
  }
}
