import type { ReelWoundJson } from '../../contract/index.ts'
import { windingEdge } from './winding-edge.ts'

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

/** A reel as it is drawn. */
export interface ReelDrawn {
  readonly carrier: CarrierSize
  /** What the carrier's sizes come from: hub and width from calipers, or all of it from a mass. */
  readonly carrierFrom: 'measured' | 'label' | 'net' | 'usual'
  /** The mass meant. */
  readonly mass_g: number
  readonly density_g_per_cm3: number
}

/** The carrier that others are taken to be like, and what it is of. Common practice, no source. */
const usual = {
  flange_mm: 200,
  hub_mm: 80,
  bore_mm: 54,
  width_mm: 60,
  wall_mm: 4,
  holds_g: 1000,
  density_g_per_cm3: 1.24,
} as const

/** Its flanges over a winding that fills it. */
const rim = usual.flange_mm / windingEdge(usual.holds_g, usual, usual.density_g_per_cm3)

/**
 * How a reel is to be drawn. A carrier has room for the mass of its label, or what is on it where that is more;
 * hub and width are taken as measured, or else in the usual proportions. The ledger knows no flange: it stands as
 * far beyond a full winding as is usual. Good for a drawing and for nothing else.
 *
 * @param wound - absent in an answer that was kept before it was told
 */
export function reelDrawn(
  wound: ReelWoundJson | undefined,
  net_g: { readonly value: number } | null,
): ReelDrawn {
  const { label_g = null, density_g_per_cm3 = null, measured = null } = wound ?? {}
  const density = density_g_per_cm3 ?? usual.density_g_per_cm3
  const [net, size] = [net_g?.value ?? 0, label_g ?? usual.holds_g]
  const mass = Math.max(size, net)
  const times = Math.cbrt(mass / density / (usual.holds_g / usual.density_g_per_cm3))
  const { hub_mm, width_mm } = measured ?? {
    hub_mm: times * usual.hub_mm,
    width_mm: times * usual.width_mm,
  }
  const full = Math.max(windingEdge(mass, { hub_mm, width_mm }, density), measured?.outer_mm ?? 0)
  return {
    carrier: {
      flange_mm: full * rim,
      hub_mm,
      bore_mm: Math.min(times, hub_mm / usual.hub_mm) * usual.bore_mm,
      width_mm,
      wall_mm: times * usual.wall_mm,
    },
    carrierFrom:
      measured !== null ? 'measured' : label_g !== null ? 'label' : net > size ? 'net' : 'usual',
    mass_g: label_g ?? mass,
    density_g_per_cm3: density,
  }
}

/** Pixels to a millimetre at which a usual carrier is so high and no carrier higher than the most. */
const scaleTo = (height: number, most: number, carriers: readonly CarrierSize[]): number => {
  const largest = Math.max(usual.flange_mm, ...carriers.map(({ flange_mm }) => flange_mm))
  return Math.min(height / usual.flange_mm, most / largest)
}

/**
 * Pixels to a millimetre at which a usual carrier fills a height and no carrier more than half as much again:
 * one for all that stand together.
 */
export const commonScale = (height: number, carriers: readonly CarrierSize[]): number =>
  scaleTo(height, 1.5 * height, carriers)

/** The same for discs on shelves: a usual one fits into a column, the largest into two of the narrowest phone. */
export const discScale = (carriers: readonly CarrierSize[]): number => scaleTo(90, 210, carriers)
