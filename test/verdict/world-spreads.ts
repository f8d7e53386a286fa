import { SeededRandom } from '../../demo/seeded-random.ts'
import { defaultShelfPriors, type Prior, type ShelfPriors } from '../../src/estimate/index.ts'
import { findMaterial, kitchenScale } from '../../src/filament/index.ts'
import type { ShelfWorld } from './shelf-worlds.ts'
import { label } from './true-bench.ts'

/** How often a world is asked for one of everything. */
const draws = 20_000
const printers = 2000
const printsOfOne = 50

const square = (x: number): number => x * x
const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length
const rms = (values: readonly number[], about = 0): number =>
  Math.sqrt(meanOf(values.map((value) => square(value - about))))
const times = <T>(n: number, one: () => T): readonly T[] => Array.from({ length: n }, one)
const wide = (prior: Prior, ...parts: readonly number[]): Prior => ({
  ...prior,
  u: Math.hypot(...parts),
})

/** Spread of the densities of the two materials on the benches, in the table, as a share. */
const densityInTable = rms(
  ['PLA', 'PETG'].map((name) => {
    const found = findMaterial(name)
    if (!found.ok || !found.value.density) throw new Error(`${name} has no density`)
    return found.value.density.u / found.value.density.value
  }),
)

/**
 * The default priors with every spread that is learnt as wide as it is in a world, about the mean that is
 * believed: what one would reckon with who had learnt all spreads exactly and knew nothing of their shape.
 * A scale has one factor for its two errors. Water is left as the priors have it.
 */
export const priorsAsWideAs = (world: ShelfWorld): ShelfPriors => {
  const random = new SeededRandom(1)
  const spread = (draw: (by: SeededRandom) => number, about = 0): number =>
    rms(
      times(draws, () => draw(random)),
      about,
    )
  const priors = defaultShelfPriors
  const { overfill, nominalDiameter, startAllowance } = priors
  const makes = times(draws, () => world.make(random))
  const carrier = rms(makes.map(({ carrierOfOneReel }) => carrierOfOneReel(random)))
  const overfillOfOneReel = spread(world.overfillOfOneReel)
  const reelAboutMake = spread(world.reelAboutMake)
  const asDiameter = (reelAboutMake * nominalDiameter.value) / 2
  const feeders = times(printers, () => {
    const { feedFactor, feedOfOneDraw, startOfOneDraw } = world.printer(random)
    const starts = times(printsOfOne, () => startOfOneDraw(random))
    const feeds = times(printsOfOne, () => feedOfOneDraw(random))
    const start = meanOf(starts)
    const ofOne = square(rms(starts, start)) * (printsOfOne / (printsOfOne - 1))
    return { feedFactor, feed: square(rms(feeds)), start, ofOne }
  })
  const feedOfOneDraw = Math.sqrt(meanOf(feeders.map(({ feed }) => feed)))
  const startOfOneDraw = meanOf(feeders.map(({ ofOne }) => ofOne))
  const starts = square(
    rms(
      feeders.map(({ start }) => start),
      startAllowance.value,
    ),
  )
  return {
    ...priors,
    unknownTare: priors.unknownTare.map((of) =>
      of.label_g === label
        ? {
            ...of,
            tare: wide(
              of.tare,
              carrier,
              rms(
                makes.map(({ tare }) => tare),
                of.tare.value,
              ),
            ),
          }
        : of,
    ),
    carrierOfOneMake: wide(priors.carrierOfOneMake, carrier),
    overfill: wide(overfill, overfillOfOneReel, spread(world.overfillOfMake, overfill.value)),
    overfillOfOneMake: wide(priors.overfillOfOneMake, overfillOfOneReel),
    diameterOffset: wide(priors.diameterOffset, asDiameter, spread(world.diameterOfMake)),
    reelAboutMake: wide(priors.reelAboutMake, reelAboutMake),
    densityOverTable: {
      ...priors.densityOverTable,
      value: spread(world.densityOfMake, 1) / densityInTable,
    },
    feedFactor: wide(
      priors.feedFactor,
      feedOfOneDraw,
      rms(
        feeders.map(({ feedFactor }) => feedFactor),
        1,
      ),
    ),
    feedOfOneDraw: wide(priors.feedOfOneDraw, feedOfOneDraw),
    // A mean of some prints has a part of what one print differs by.
    startAllowance: wide(
      startAllowance,
      Math.sqrt(Math.max(0, starts - startOfOneDraw / printsOfOne)),
      Math.sqrt(startOfOneDraw),
    ),
    startOfOneDraw: wide(priors.startOfOneDraw, Math.sqrt(startOfOneDraw)),
    scaleOverStated: {
      ...priors.scaleOverStated,
      value: rms([
        spread(world.gain) / kitchenScale.gain,
        world.repeatability / kitchenScale.repeatability,
      ]),
    },
  }
}
