import type { SeededRandom } from '../../demo/seeded-random.ts'
import { defaultPriors } from '../../src/estimate/index.ts'

/** How true reels and printers are made: what the model only has priors for. */
export interface World {
  readonly name: string
  /** In a few words, for the table. */
  readonly how: string
  /** g, of reels of 1 kg. */
  readonly tare: (random: SeededRandom) => number
  /** Net mass at opening over the label. */
  readonly overfill: (random: SeededRandom) => number
  /** Density over that of the materials table, as a factor. */
  readonly density: (random: SeededRandom) => number
  /** Mean diameter less the nominal, mm. */
  readonly diameter: (random: SeededRandom) => number
  readonly feedFactor: (random: SeededRandom) => number
  /** mm */
  readonly startAllowance: (random: SeededRandom) => number
  /** mm */
  readonly tail: (random: SeededRandom) => number
  /** How far carriers of a make differ, g: standard deviation. */
  readonly carrierOfOneMake: number
}

const { overfill, diameterOffset, feedFactor, startAllowance, tail, carrierOfOneMake } =
  defaultPriors

/** Standard deviation of the density of PLA in the materials table, as a share of it. */
const densitySpread = 0.015 / 1.24

/** Everything is as the priors say, and normal. */
const asBelieved: World = {
  name: 'as believed',
  how: 'the priors themselves',
  tare: (random) => random.normal(250, 60),
  overfill: (random) => random.normal(overfill.value, overfill.u),
  density: (random) => random.normal(1, densitySpread),
  diameter: (random) => random.normal(0, diameterOffset.u),
  feedFactor: (random) => random.normal(feedFactor.value, feedFactor.u),
  startAllowance: (random) => random.normal(startAllowance.value, startAllowance.u),
  tail: (random) => random.normal(tail.value, tail.u),
  carrierOfOneMake: carrierOfOneMake.u,
}

/** Broader than the priors, of other shape, or with its middle elsewhere. */
const broader: Omit<World, 'name' | 'how' | 'tare'> = {
  overfill: (random) => random.between(0.97, 1.04),
  density: (random) => random.between(0.975, 1.03),
  diameter: (random) => random.between(-0.05, 0.03),
  feedFactor: (random) => random.between(0.965, 1.035),
  startAllowance: (random) => (random.uniform() < 0.5 ? 0 : random.between(50, 300)),
  tail: (random) => random.between(100, 1200),
  carrierOfOneMake: 6,
}

/** Worlds that the model was not made for, and the one that it was. */
export const worlds: readonly World[] = [
  asBelieved,
  {
    ...broader,
    name: 'shifted',
    how: 'carriers 40 g lighter than believed, all else uniform and broader',
    tare: (random) => random.normal(210, 60),
  },
  {
    ...broader,
    name: 'uniform',
    how: 'carriers anywhere from 130 to 370 g, all else uniform and broader',
    tare: (random) => random.between(130, 370),
  },
  {
    ...broader,
    name: 'two-peaked',
    how: 'half cardboard about 165 g, half heavy plastic about 300 g, all else broader',
    tare: (random) => (random.uniform() < 0.5 ? random.normal(165, 20) : random.normal(300, 25)),
  },
]
