/**
 * Names of the unknowns: tare t, net mass at opening n₀, mass fed since f (g); density ρ (g/cm³),
 * mean cross-section A (mm²), packing k of the winding; and one relative gain error for each scale,
 * `gain`, `gain_2`, … in the order of use. A whole shelf has these once per reel, the gains once
 * per scale.
 */
export const unknownNames = {
  tare: 'tare',
  opening: 'opening',
  fed: 'fed',
  density: 'density',
  area: 'area',
  packing: 'packing',
  gain: 'gain',
} as const
