import type { SeededRandom } from '../../demo/seeded-random.ts'
import type { ShelfCatalogue } from '../../src/estimate/index.ts'
import { findMaterial, kitchenScale } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'
import type { ShelfWorld, TruePrinter, TrueWater } from './shelf-worlds.ts'

/** Net mass on every label, g. */
export const label = 1000

/** A reel as it truly is. */
export interface TrueReel {
  readonly id: string
  /** Place of its make. */
  readonly make: number
  /** g */
  readonly tare: number
  /** g/m */
  readonly perMetre: number
  /** Dry mass, g, falls as it is printed from. */
  net: number
  readonly water: TrueWater
  /** Since when it is in the room, and the water it had then over its dry mass. */
  opened: { readonly day: number; readonly share: number }
  /** Gross when new as the ledger has it, g, where it was weighed then. */
  newGross?: number
}

/** A bench as it truly is, and what its catalogue says of it. */
export interface TrueBench {
  readonly reels: readonly TrueReel[]
  readonly printers: readonly TruePrinter[]
  /** Relative error of each scale. */
  readonly gains: readonly number[]
  readonly catalogue: ShelfCatalogue
  /** How often a reel is weighed after a print, when new, and when it has run dry. */
  readonly habits: { readonly after: number; readonly whenNew: number; readonly empty: number }
}

const list = <T>(n: number, one: (i: number) => T): readonly T[] =>
  Array.from({ length: n }, (_, i) => one(i))

/** What a scale without any error would show, g: carrier, filament and the water in it. */
export const trueGross = ({ tare, net, water, opened }: TrueReel, day: number): number => {
  const { atRest, days } = water
  const away = (opened.share - atRest) * Math.exp((opened.day - day) / days)
  return tare + net * (1 + atRest + away)
}

/** Two or three makes of two to four reels, two or three printers, one or two scales. */
export const trueBench = (world: ShelfWorld, random: SeededRandom): TrueBench => {
  const upTo = (n: number): number => Math.floor(random.uniform() * n)
  const materials = list(2 + upTo(2), () => (random.uniform() < 0.6 ? 'PLA' : 'PETG'))
  const reels = materials.flatMap((material, make) => {
    const { tare, carrierOfOneReel } = world.make(random)
    const overfill = world.overfillOfMake(random)
    const diameter = 1.75 + world.diameterOfMake(random)
    const density = usualDensity(material) * world.densityOfMake(random)
    return list(
      2 + upTo(3),
      (i): TrueReel => ({
        water: world.water(random, material === 'PLA'),
        opened: { day: 0, share: 0 },
        id: `reel ${make}-${i}`,
        make,
        tare: tare + carrierOfOneReel(random),
        perMetre: ((density * Math.PI * diameter ** 2) / 4) * (1 + world.reelAboutMake(random)),
        net: label * (overfill + world.overfillOfOneReel(random)),
      }),
    )
  })
  const printers = list(2 + upTo(2), () => world.printer(random))
  const gains = list(1 + upTo(2), () => world.gain(random))
  return {
    reels,
    printers,
    gains,
    catalogue: {
      makes: materials.map((material, i) => ({
        id: `make ${i}`,
        material,
        labelNet: grams(label),
      })),
      printers: printers.map((_, i) => ({ id: `printer ${i}` })),
      scales: gains.map((_, i) => ({ id: `scale ${i}`, scale: kitchenScale })),
      reels: reels.map(({ id, make }) => ({ id, make: `make ${make}` })),
    },
    habits: {
      after: random.between(0.05, 0.35),
      whenNew: random.between(0.1, 0.6),
      empty: random.between(0.2, 0.9),
    },
  }
}

const usualDensity = (material: string): number => {
  const found = findMaterial(material)
  if (!found.ok || !found.value.density) throw new Error(`${material} has no density`)
  return found.value.density.value
}

/** What a display shows, and whether that is a slip. */
export interface Shown {
  readonly shown: number
  readonly slip: 'none' | 'ounces' | 'other'
}

/**
 * Puts a reel on a scale. A share of readings is grossly wrong: another open reel, ounces, the tare
 * taken off, something left on the scale, or any 20 to 400 g too much or too little.
 */
export const readScale = (
  { gains }: TrueBench,
  world: ShelfWorld,
  random: SeededRandom,
  reel: TrueReel,
  others: readonly TrueReel[],
  scale: number,
  day: number,
  slipShare: number,
): Shown => {
  const show = (one: TrueReel): number =>
    Math.round(trueGross(one, day) * (1 + gains[scale]!) + random.normal(0, world.repeatability))
  const right = show(reel)
  if (random.uniform() >= slipShare) return { shown: right, slip: 'none' }
  const off = Math.round(random.between(20, 400))
  const other = others.length > 0 ? show(random.pick(others)) : right + off
  const signed = random.uniform() < 0.5 ? off : -off
  const slips: readonly Shown[] = [
    { shown: other, slip: 'other' },
    { shown: Math.round(right / 2.8349523125) / 10, slip: 'ounces' },
    { shown: Math.max(1, Math.round(right - reel.tare)), slip: 'other' },
    { shown: right + off, slip: 'other' },
    { shown: Math.max(1, right + signed), slip: 'other' },
  ]
  return random.pick(slips)
}
