import type { Material, Range, WaterUptake } from '../filament/index.ts'
import { DomainError, type Measured, measured } from '../units/index.ts'
import type { Air, ShelfMake } from './shelf-facts.ts'
import type { ShelfPriors } from './shelf-priors.ts'

/** What is believed of the water in the filament of a make; shares are of the dry mass. */
export interface MakeWater {
  /** Where the water goes in each air, and how far it strays about that. */
  readonly atRest: Readonly<Record<Air, Measured>>
  /** In a reel that was just opened. */
  readonly whenNew: Measured
  /** In a reel of which nobody knows how it was kept. */
  readonly ofPartUsed: Measured
  /** After drying. */
  readonly afterDrying: Measured
  /** Time constant of a wound reel, days. */
  readonly days: number
  /** Products are expanded nowhere beyond this share. */
  readonly most: number
}

/**
 * The water of a make, or nothing where it takes up too little to be reckoned with (`leastWater`),
 * or where nothing is known of its material.
 *
 * The share at rest is the make's own where given, else the table's figure in air of 50 % humidity,
 * else `restOfSaturation` of the figure for saturation, else of the figure after a day in water,
 * which is no more than saturation; a hygroscopic material without any has `waterWithoutFigure`.
 *
 * @throws DomainError `impossible_make`
 */
export const waterOfMake = (
  make: ShelfMake,
  material: Material | undefined,
  priors: ShelfPriors,
): MakeWater | undefined => {
  if (make.hygroscopic === false) return undefined
  const room = ownWater(make, priors) ?? waterInRoom(make, material, priors)
  if (room === undefined) return undefined
  if (make.hygroscopic !== true && room.value < priors.leastWater.value) return undefined
  return {
    atRest: { room, dry: times(room, priors.dryAir) },
    whenNew: times(room, priors.waterWhenNew),
    ofPartUsed: times(room, priors.waterOfPartUsed),
    afterDrying: times(room, priors.waterAfterDrying),
    days: priors.waterTime.value,
    most: 4 * room.value,
  }
}

const ownWater = ({ id, waterAtRest }: ShelfMake, priors: ShelfPriors): Measured | undefined => {
  if (waterAtRest === undefined) return undefined
  const { value, u } = waterAtRest
  if (!(value >= 0 && value < 1 && u >= 0 && u < 1)) {
    throw new DomainError('impossible_make', `make ${id} can not take up ${value} ± ${u} of water`)
  }
  return u > 0 ? waterAtRest : times(waterAtRest, priors.roomAir)
}

const waterInRoom = (
  { hygroscopic }: ShelfMake,
  material: Material | undefined,
  priors: ShelfPriors,
): Measured | undefined => {
  const figures = material?.waterUptake ?? []
  const shareAt = (condition: WaterUptake['condition']): Measured | undefined => {
    const found = figures.find((figure) => figure.condition === condition)
    return found && midOf(found.share)
  }
  const rest = shareAt('at rest in air of 50 % humidity')
  if (rest) return times(rest, priors.roomAir)
  const soaked = shareAt('saturated in water') ?? shareAt('24 h in water')
  if (soaked) return times(times(soaked, priors.restOfSaturation), priors.roomAir)
  const takesUp = hygroscopic ?? material?.hygroscopic ?? false
  return takesUp ? priors.waterWithoutFigure : undefined
}

/** The middle of a range, half its width being the spread between sources. */
const midOf = ([low, high]: Range): Measured => measured((low + high) / 2, (high - low) / 2)

const times = (a: Measured, b: Measured): Measured =>
  measured(a.value * b.value, Math.hypot(a.value * b.u, b.value * a.u))
