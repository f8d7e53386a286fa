import { describe, expect, it } from 'vitest'
import {
  defaultPriors,
  normalCdf,
  normalQuantile,
  type ReelFacts,
  reckonReel,
} from '../../src/estimate/index.ts'
import { findMaterial, kitchenScale } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
} from '../../src/units/index.ts'
import { availableDraw, judge, marginModel, unknownPrinter } from '../../src/verdict/index.ts'
import { SeededRandom } from '../seeded-random.ts'

// True reels are drawn from the priors, seen through the errors the model knows of, and judged; then
// the print is run. What is not drawn from the model: a reel has been fed between nothing and all of
// it, where the prior of the fed mass is flat, and the display really rounds.

const priors = defaultPriors
const pla = findMaterial('pla')
const density = pla.ok ? pla.value.density! : measured(gramsPerCubicCentimetre(Number.NaN))

interface Case {
  readonly chance: number
  readonly finished: boolean
  /** What the hand method says: gross less 250 g against nominal diameter and density. */
  readonly handSaysYes: boolean
  readonly verdict: string
}

const simulateOne = (random: SeededRandom): Case | null => {
  const label = 1000
  const tare = random.normal(250, 60)
  const opening = label * random.normal(priors.overfill.value, priors.overfill.u)
  const net = opening * random.uniform()
  const rho = random.normal(density.value, density.u)
  const diameter = random.normal(1.75, priors.diameterOffset.u)
  const perMetre = (rho * Math.PI * diameter ** 2) / 4
  const gain = random.normal(0, kitchenScale.gain)
  const read = (load: number): { reading: ReturnType<typeof grams> } => ({
    reading: grams(Math.round(load * (1 + gain) + random.normal(0, kitchenScale.repeatability))),
  })
  const grossNow = read(tare + net)
  if (grossNow.reading <= 0) return null
  const facts: ReelFacts = {
    grossNow,
    labelNet: grams(label),
    material: 'PLA',
    nominalDiameter: measured(millimetres(1.75)),
    ...(random.uniform() < 0.6 && {
      tare: {
        kind: 'weighed',
        weighing: read(random.normal(tare, priors.carrierOfOneMake.u)),
      },
    }),
    ...(random.uniform() < 0.3 && { grossWhenNew: read(tare + opening) }),
    ...(random.uniform() < 0.3 && {
      linearDensity: measured(gramsPerMetre(random.normal(perMetre, 0.02)), 0.02),
    }),
  }
  const belief = reckonReel(facts)
  if (!belief.ok) return null
  // The draw is chosen by what is believed, as a person would, and by nothing that is hidden.
  const available = availableDraw(marginModel(belief.value, unknownPrinter))
  const peak = available.value + random.between(-2.5, 2.5) * available.u
  if (peak < 1000) return null
  const { chance, verdict } = judge({
    belief: belief.value,
    draw: [{ weight: 1, peak_mm: peak }],
  })
  const metres =
    (random.normal(priors.feedFactor.value, priors.feedFactor.u) * peak +
      random.normal(priors.startAllowance.value, priors.startAllowance.u) +
      random.normal(priors.tail.value, priors.tail.u)) /
    1000
  const nominal = (1.24 * Math.PI * 1.75 ** 2) / 4
  return {
    chance,
    verdict,
    finished: net > perMetre * metres,
    handSaysYes: grossNow.reading - 250 >= (nominal * peak) / 1000,
  }
}

const random = new SeededRandom(41)
const cases: Case[] = []
while (cases.length < 4000) {
  const drawn = simulateOne(random)
  if (drawn) cases.push(drawn)
}
const shareOf = (chosen: readonly Case[]): number =>
  chosen.filter(({ finished }) => finished).length / chosen.length

describe('stated chances, over 4000 simulated reels', () => {
  it.each(Array.from({ length: 10 }, (_, i) => i / 10))('are right from %f up', (low) => {
    const bin = cases.filter(({ chance }) => chance >= low && chance < low + 0.1)
    const stated = bin.reduce((sum, { chance }) => sum + chance, 0) / bin.length
    const limit = 4 * Math.sqrt((stated * (1 - stated)) / bin.length)
    expect(bin.length).toBeGreaterThan(100)
    expect(Math.abs(shareOf(bin) - stated)).toBeLessThan(limit)
  })

  it('would be caught if the spreads were stated half as large', () => {
    const bold = cases.map(({ chance, finished }) => ({
      chance: normalCdf(2 * normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, chance)))),
      finished,
    }))
    const sure = bold.filter(({ chance }) => chance >= 0.9)
    const stated = sure.reduce((sum, { chance }) => sum + chance, 0) / sure.length
    const finished = sure.filter((one) => one.finished).length / sure.length
    expect(stated - finished).toBeGreaterThan(4 * Math.sqrt((stated * (1 - stated)) / sure.length))
  })

  it('have the Brier score that right chances would have', () => {
    let score = 0
    let expected = 0
    let variance = 0
    for (const { chance: p, finished } of cases) {
      score += (Number(finished) - p) ** 2
      expected += p * (1 - p)
      variance += p * (1 - p) * (1 - 2 * p) ** 2
    }
    expect(Math.abs(score - expected)).toBeLessThan(4 * Math.sqrt(variance))
  })

  it('run out far less often on enough than the hand method does on yes', () => {
    const enough = cases.filter(({ verdict }) => verdict === 'enough')
    const yes = cases.filter(({ handSaysYes }) => handSaysYes)
    const ranOut = 1 - shareOf(enough)
    expect(enough.length).toBeGreaterThan(400)
    const stated = enough.reduce((sum, { chance }) => sum + 1 - chance, 0) / enough.length
    expect(Math.abs(ranOut - stated)).toBeLessThan(
      4 * Math.sqrt((stated * (1 - stated)) / enough.length),
    )
    expect(ranOut).toBeLessThan(0.05)
    expect(1 - shareOf(yes)).toBeGreaterThan(5 * ranOut)
  })

  it('on short, hardly one finishes', () => {
    const short = cases.filter(({ verdict }) => verdict === 'short')
    expect(short.length).toBeGreaterThan(400)
    expect(shareOf(short)).toBeLessThan(0.05)
  })
})
