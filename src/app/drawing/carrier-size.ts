/** Sizes of a carrier, mm. */
export interface CarrierSize {
  /** Diameter of the flanges. */
  readonly flange_mm: number
  /** Diameter of the cylinder that the first turn lies on. */
  readonly hub_mm: number
  /** Diameter of the hole. */
  readonly bore_mm: number
  /** Between the insides of the flanges. */
  readonly width_mm: number
  /** Thickness of one flange. */
  readonly wall_mm: number
}

/**
 * A carrier that nobody measured, as carriers of about a kilogram are. Common practice, no source;
 * good for a drawing and for nothing else.
 */
export const usualCarrier: CarrierSize = {
  flange_mm: 200,
  hub_mm: 80,
  bore_mm: 54,
  width_mm: 60,
  wall_mm: 4,
}
