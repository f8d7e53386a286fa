import { type ReelFacts, reckonReel } from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, gramsPerMetre, measured, millimetres } from '../../src/units/index.ts'
import {
  availableDraw,
  judge,
  marginModel,
  unknownPrinter,
  type Verdict,
} from '../../src/verdict/index.ts'
import { brierScore } from '../scoring.ts'
import { SeededRandom } from '../seeded-random.ts'
import type { World } from './simulated-worlds.ts'

/** One reel that was judged, and what then happened. */
export interface SimulatedCase {
  readonly chance: number
  readonly verdict: Verdict
  readonly finished: boolean
  /** Gross less 250 g, or less the carrier where one was weighed, against nominal figures. */
  readonly handSaysYes: boolean
}

/** What a simulation came to. */
export interface Simulation {
  readonly cases: readonly SimulatedCase[]
  /** Reels whose facts were refused. */
  readonly refused: number
}

const label = 1000
const tableDensity = 1.24
const nominalPerMetre = (tableDensity * Math.PI * 1.75 ** 2) / 4

/**
 * True reels drawn from a world, shown through a scale that rounds, judged, and the print run. The
 * draw is chosen by what is believed, as a person would, and by nothing that is hidden.
 */
export const simulate = (world: World, count: number, seed: number): Simulation => {
  const random = new SeededRandom(seed)
  const cases: SimulatedCase[] = []
  let refused = 0
  while (cases.length < count) {
    const one = simulateOne(world, random)
    if (one === 'refused') refused++
    else if (one !== undefined) cases.push(one)
  }
  return { cases, refused }
}

const simulateOne = (world: World, random: SeededRandom): SimulatedCase | 'refused' | undefined => {
  const tare = world.tare(random)
  const opening = label * world.overfill(random)
  const net = opening * random.uniform()
  const diameter = 1.75 + world.diameter(random)
  const perMetre = (tableDensity * world.density(random) * Math.PI * diameter ** 2) / 4
  const gain = random.normal(0, kitchenScale.gain)
  const read = (load: number): { reading: ReturnType<typeof grams> } => ({
    reading: grams(Math.round(load * (1 + gain) + random.normal(0, kitchenScale.repeatability))),
  })
  const grossNow = read(tare + net)
  const carrier = read(random.normal(tare, world.carrierOfOneMake))
  const carrierWeighed = random.uniform() < 0.6
  const weighedNew = random.uniform() < 0.3
  const cut = random.uniform() < 0.3
  if (grossNow.reading <= 0 || carrier.reading <= 0) return undefined
  const facts: ReelFacts = {
    grossNow,
    labelNet: grams(label),
    material: 'PLA',
    nominalDiameter: measured(millimetres(1.75)),
    ...(carrierWeighed && { tare: { kind: 'weighed', weighing: carrier } }),
    ...(weighedNew && { grossWhenNew: read(tare + opening) }),
    ...(cut && { linearDensity: measured(gramsPerMetre(random.normal(perMetre, 0.02)), 0.02) }),
  }
  const belief = reckonReel(facts)
  if (!belief.ok) return 'refused'
  const available = availableDraw(marginModel(belief.value, unknownPrinter))
  const peak = available.value + random.between(-2.5, 2.5) * available.u
  if (peak < 1000) return undefined
  const { chance, verdict } = judge({
    belief: belief.value,
    draw: [{ weight: 1, peak_mm: peak }],
  })
  const metres =
    (world.feedFactor(random) * peak + world.startAllowance(random) + world.tail(random)) / 1000
  const handTare = carrierWeighed ? carrier.reading : 250
  return {
    chance,
    verdict,
    finished: net > perMetre * metres,
    handSaysYes: grossNow.reading - handTare >= (nominalPerMetre * peak) / 1000,
  }
}

/** One line of a reliability table. */
export interface ReliabilityBin {
  readonly low: number
  readonly high: number
  readonly count: number
  /** Mean of the chances stated. */
  readonly stated: number
  /** Share that finished. */
  readonly finished: number
  /** Standard deviation of that share, were the chances stated right. */
  readonly sd: number
}

const edges = [0, 0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1]

/** Chances stated against what happened; the outer bins are where calls are made. */
export const reliability = (cases: readonly SimulatedCase[]): readonly ReliabilityBin[] =>
  edges.slice(1).map((high, place) => {
    const low = edges[place]!
    const inside = cases.filter(({ chance }) => chance >= low && (chance < high || high === 1))
    const mean = (of: (one: SimulatedCase) => number): number =>
      inside.reduce((sum, one) => sum + of(one), 0) / inside.length
    return {
      low,
      high,
      count: inside.length,
      stated: mean(({ chance }) => chance),
      finished: mean(({ finished }) => Number(finished)),
      sd: Math.sqrt(mean(({ chance: p }) => p * (1 - p)) / inside.length),
    }
  })

/** The Brier score of what was said, 0 to 1. */
export const brierScoreOf = (
  cases: readonly SimulatedCase[],
  said: (one: SimulatedCase) => number,
): number => brierScore(cases.map((one) => ({ chance: said(one), happened: one.finished })))
