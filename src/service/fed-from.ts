import type { GramsPerMetre, Measured } from '../units/index.ts'

/** A length that was fed off a reel, and the share of it where it ended early. */
export interface Fed {
  /** As the file asks it. */
  readonly length_mm: number
  readonly share?: { readonly value: number; readonly u: number }
}

/** g; u is of the feeding and of where it stopped, and not of the filament. */
export interface FedMass {
  readonly length_mm: number
  readonly mass_g: number
  readonly u_g: number
}

/** What was fed, as a mass. @param feedU - standard uncertainty of the feed factor, about 1 */
export const fedMass = (
  fed: readonly Fed[],
  linearDensity: Measured<GramsPerMetre>,
  feedU: number,
): FedMass => {
  const perMm = linearDensity.value / 1000
  const length_mm = fed.reduce(
    (sum, { length_mm: one, share }) => sum + one * (share?.value ?? 1),
    0,
  )
  const ofShares = Math.hypot(...fed.map(({ length_mm: one, share }) => one * (share?.u ?? 0)))
  return {
    length_mm,
    mass_g: length_mm * perMm,
    u_g: perMm * Math.hypot(ofShares, length_mm * feedU),
  }
}
