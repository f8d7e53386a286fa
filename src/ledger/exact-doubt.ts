import type { MeasuredJson } from '../contract/index.ts'
import type { ShelfPriors } from '../estimate/index.ts'

/** A figure with the doubt it has all the same where it was written down as exact (u = 0). */
export const doubted = ({ value, u }: MeasuredJson, doubt: number): MeasuredJson => ({
  value,
  u: u > 0 ? u : doubt,
})

/**
 * Standard uncertainties of figures that were written down without one, of which the estimate takes
 * none as exact: common practice, no source.
 */
export const exactDoubts = {
  /** A sheet's tare is that of one carrier, or of a rounded mean, g. */
  statedTare: (priors: ShelfPriors): number => priors.carrierOfOneMake.u,
  /** A ruler laid along a tail, a piece that is cut off, or a winding, mm. */
  ruler: 1,
  /** One figure for a reel whose metres differ, as a share of it. */
  linearDensity: (priors: Pick<ShelfPriors, 'metreAboutReel'>): number => priors.metreAboutReel.u,
  /** As for a data sheet, as a share of it. */
  density: (priors: ShelfPriors): number => priors.dataSheetOffset.u,
  /** A cup of water that stood in the room and was measured there, °C. */
  water: 0.5,
} as const
