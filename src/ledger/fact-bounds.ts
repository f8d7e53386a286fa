/** Least, most, and in what unit. */
export type FactBounds = readonly [low: number, high: number, unit: string]

type Bounded =
  | 'reading_g'
  | 'label_net_g'
  | 'density'
  | 'linear'
  | 'diameter_mm'
  | 'length_mm'
  | 'path_mm'
  | 'water'

/** Bounds of what a reel that a person carries can be. Outside them a unit was mistaken. */
export const factBounds: Readonly<Record<Bounded, FactBounds>> = {
  reading_g: [0, 100_000, 'g'],
  label_net_g: [20, 100_000, 'g'],
  density: [0.3, 12, 'g/cm³'],
  linear: [0.1, 500, 'g/m'],
  diameter_mm: [0.5, 10, 'mm'],
  length_mm: [0, 100_000_000, 'mm'],
  // Filament between reel and nozzle, and what is purged: the longest feed tubes are a few metres.
  path_mm: [0, 20_000, 'mm'],
  water: [0, 1, 'of the dry mass'],
}
