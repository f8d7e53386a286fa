import type { Measured } from '../units/index.ts'
import type { Source } from './source.ts'

/** Share of the winding's volume filled by filament when each turn sits on top of another. */
export const stackedPacking: number = Math.PI / 4
/** The same when each turn sits in the groove between two others. */
export const nestedPacking: number = Math.PI / (2 * Math.sqrt(3))

/** A packing factor with where it comes from. */
export interface Packing extends Measured {
  readonly source: Source
}

/**
 * The packing of a reel nobody has measured: half-way between stacked and nested, with half the
 * distance between them as standard uncertainty. Not the narrower √12 of an even spread: turns that
 * cross over and gaps at the flanges lead below stacked, and cable-reel practice (layers 5 % closer
 * than stacked, width used to 95 %: after NEMA WC 26, completed from memory) comes out at stacked.
 */
export const customaryPacking: Packing = {
  value: (stackedPacking + nestedPacking) / 2,
  u: (nestedPacking - stackedPacking) / 2,
  source: {
    standing: 'common practice, no source',
    where: 'between turns stacked, π/4, and nested, π/(2√3); cable reels come out at stacked',
  },
}
