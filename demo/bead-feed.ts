/** Filament diameter every demo print is made for, mm. */
export const filamentDiameter_mm = 1.75

/**
 * Filament fed for each millimetre of path by a bead of rectangular section: bead area over
 * filament area.
 *
 * @param width_mm - bead width, mm, > 0
 * @param height_mm - layer height, mm, > 0
 * @returns mm of filament for each mm of path
 */
export const beadFeed = (width_mm: number, height_mm: number): number =>
  (width_mm * height_mm) / ((Math.PI / 4) * filamentDiameter_mm ** 2)
