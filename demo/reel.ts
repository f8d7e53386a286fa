import type { ScaleName } from './bench.ts'

/** What the bench knows of a carrier. */
export type KnownTare =
  | { readonly by: 'weighed'; readonly tare_g: number }
  /** Only what it is made of. */
  | { readonly by: 'kind'; readonly kind: 'plastic' | 'cardboard' }
  | { readonly by: 'nothing' }

/** What the bench knows of a reel. What is left out was never measured. */
export interface KnownOfReel {
  /** What the kitchen scale shows now. */
  readonly gross_g: number
  readonly tare: KnownTare
  /** What the kitchen scale showed before the first print. */
  readonly grossNew_g?: number
  /** Net mass the label promises. */
  readonly labelNet_g?: number
  /** From the maker's data sheet. */
  readonly density_gPerCm3?: number
  /** Calipers, two readings across each other at each place, mm. */
  readonly diameterPairs_mm?: readonly (readonly [number, number])[]
  /** A length cut off and weighed. */
  readonly cut?: { readonly length_mm: number; readonly mass_g: number; readonly scale: ScaleName }
}

/** What is true of a reel and known to nobody at the bench. */
export interface HiddenReel {
  readonly tare_g: number
  readonly net_g: number
  readonly density_gPerCm3: number
  /** Mean widest and narrowest diameter. */
  readonly diameters_mm: readonly [number, number]
}

/** A reel on the bench's shelf. */
export interface BenchReel {
  readonly name: string
  readonly maker: string
  readonly material: 'PLA' | 'PETG' | 'TPU' | 'PLA, wood-filled'
  readonly colour: string
  /** How it came to be known as it is. */
  readonly story: string
  readonly known: KnownOfReel
  readonly hidden: HiddenReel
}

/** True linear density, g/m: density × (π/4) d₁ d₂; g/cm³ times mm² is g/m. */
export const trueLinearDensity = ({ density_gPerCm3, diameters_mm }: HiddenReel): number =>
  density_gPerCm3 * (Math.PI / 4) * diameters_mm[0] * diameters_mm[1]
