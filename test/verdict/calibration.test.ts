import { describe, expect, it } from 'vitest'
import { normalCdf, normalQuantile } from '../../src/estimate/index.ts'
import { brierScoreOf, reliability, type SimulatedCase, simulate } from './simulated-reels.ts'
import { worlds } from './simulated-worlds.ts'

// True reels are drawn from worlds, seen through a scale that rounds, and judged; then the print is
// run. One world is as the priors say; in the others carriers, filling, filament and printers are
// broader, of other shape, or elsewhere than believed. The table with more reels, and the hand
// method's beside it: node benchmarks/reliability.ts

const count = 4000
const runs = worlds.map((world, place) => ({
  name: world.name,
  cases: simulate(world, count, 41 + place).cases,
}))
const asBelieved = runs[0]!.cases
const unlike = runs.slice(1)

/** How far off, in the unlike worlds, a chance between the calls may be: the priors are wrong there. */
const lenience = 0.13

const ranOut = (cases: readonly SimulatedCase[]): number =>
  cases.filter(({ finished }) => !finished).length / cases.length
const calledAs = (
  cases: readonly SimulatedCase[],
  call: SimulatedCase['verdict'],
): readonly SimulatedCase[] => cases.filter(({ verdict }) => verdict === call)

/** Four standard errors of a share p of n. */
const limit = (p: number, n: number): number => 4 * Math.sqrt((p * (1 - p)) / n)

describe('in a world as believed', () => {
  it.each(reliability(asBelieved))('chances from $low to $high are right', (bin) => {
    expect(bin.count).toBeGreaterThan(300)
    expect(Math.abs(bin.finished - bin.stated)).toBeLessThan(4 * bin.sd)
  })

  it('chances would be caught if the spreads were stated half as large', () => {
    const bold = asBelieved.map((one) => ({
      ...one,
      chance: normalCdf(2 * normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, one.chance)))),
    }))
    const worst = Math.max(
      ...reliability(bold).map(({ finished, stated, sd }) => Math.abs(finished - stated) / sd),
    )
    expect(worst).toBeGreaterThan(8)
  })

  it('the Brier score is the one that right chances would have', () => {
    const expected = asBelieved.reduce((sum, { chance: p }) => sum + p * (1 - p), 0) / count
    const variance = asBelieved.reduce(
      (sum, { chance: p }) => sum + p * (1 - p) * (1 - 2 * p) ** 2,
      0,
    )
    const score = brierScoreOf(asBelieved, ({ chance }) => chance)
    expect(Math.abs(score - expected)).toBeLessThan((4 * Math.sqrt(variance)) / count)
  })

  it('on short, hardly one finishes', () => {
    const short = calledAs(asBelieved, 'short')
    expect(short.length).toBeGreaterThan(400)
    expect(1 - ranOut(short)).toBeLessThan(0.05)
  })
})

describe.each(unlike)('in a world that is $name', ({ cases }) => {
  it('chances between the calls are off by no more than the priors are', () => {
    for (const { finished, stated, sd } of reliability(cases)) {
      expect(Math.abs(finished - stated)).toBeLessThan(lenience + 4 * sd)
    }
  })

  it('the higher the chance, the more finish', () => {
    const shares = reliability(cases).map(({ finished }) => finished)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
  })
})

describe.each(runs)('in every world ($name)', ({ cases }) => {
  it('no more run out on enough than its confidence allows', () => {
    const enough = calledAs(cases, 'enough')
    expect(enough.length).toBeGreaterThan(400)
    expect(ranOut(enough)).toBeLessThan(0.05 + limit(0.05, enough.length))
  })

  it('far more run out on the hand method’s yes', () => {
    const yes = cases.filter(({ handSaysYes }) => handSaysYes)
    const enough = calledAs(cases, 'enough')
    expect(ranOut(yes)).toBeGreaterThan(4 * ranOut(enough))
  })

  it('the Brier score is better than the hand method’s, reel by reel', () => {
    const gains = cases.map(
      ({ chance, finished, handSaysYes }) =>
        (Number(handSaysYes) - Number(finished)) ** 2 - (chance - Number(finished)) ** 2,
    )
    const mean = gains.reduce((sum, gain) => sum + gain, 0) / count
    const spread = Math.sqrt(gains.reduce((sum, gain) => sum + (gain - mean) ** 2, 0) / count)
    expect(mean).toBeGreaterThan((4 * spread) / Math.sqrt(count))
    expect(mean).toBeGreaterThan(0.05)
  })
})
