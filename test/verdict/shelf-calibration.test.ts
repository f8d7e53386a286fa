import { describe, expect, it } from 'vitest'
import { type Forecast, reliabilityBins } from '../scoring.ts'
import { shelfWorlds } from './shelf-worlds.ts'
import { type BenchCall, type BenchOptions, simulateShelves } from './simulated-shelf.ts'

// Months on benches drawn from worlds broader than the priors and of other shape, with slips at the
// scale; prints asked about at the end are close calls in truth. More cases, bin by bin, and the worlds
// each by itself: node benchmarks/shelf-reliability.ts

const benches = 24
const run = (worlds = shelfWorlds, options: BenchOptions = {}): readonly (readonly BenchCall[])[] =>
  worlds.map((world, place) => simulateShelves(world, benches, 71 + place, options).calls)

const forecasts = (calls: readonly BenchCall[], world: number): readonly Forecast[] =>
  calls.map(({ weighed, finished, bench }) => ({
    chance: weighed,
    happened: finished,
    group: 1e6 * world + bench,
  }))
const shareOf = <T>(rows: readonly T[], chosen: (row: T) => boolean): number =>
  rows.filter(chosen).length / rows.length
const ranOut = (calls: readonly BenchCall[]): { share: number; count: number } => {
  const enough = calls.filter(({ weighed }) => weighed >= 0.95)
  return { share: shareOf(enough, ({ finished }) => !finished), count: enough.length }
}

/** Share of wrong calls less a third of the hand method’s, and its standard error, benches kept whole. */
const wrongOverAThird = (calls: readonly BenchCall[]): { value: number; error: number } => {
  const ofBench = new Map<number, number>()
  for (const { weighed, handSaysYes, finished, bench } of calls) {
    const more = Number(weighed >= 0.5 !== finished) - Number(handSaysYes !== finished) / 3
    ofBench.set(bench, (ofBench.get(bench) ?? 0) + more)
  }
  const sums = [...ofBench.values()]
  const mean = sums.reduce((sum, each) => sum + each, 0) / sums.length
  const variance = sums.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return { value: (mean * sums.length) / calls.length, error: Math.sqrt(variance) / calls.length }
}

const edges = [0, 0.02, 0.05, 0.2, 0.5, 0.8, 0.95, 0.98, 1]

/** Σ over eight bins of (finished less stated)² in standard errors: about 8 when chances are right. */
const misfit = (worlds: readonly (readonly BenchCall[])[]): number => {
  const all = worlds.flatMap(forecasts)
  return reliabilityBins(all, edges).reduce(
    (sum, { stated, observed, error }) => sum + ((observed - stated) / error) ** 2,
    0,
  )
}
/** What chi-squared with 8 degrees of freedom exceeds once in a hundred times; from memory. */
const limit = 20.09

const broader = shelfWorlds.slice(1)
const runs = run()
const named = shelfWorlds.map(({ name }, place) => ({ name, calls: runs[place]! }))

describe.each(named)('on benches of a world $name', ({ calls }) => {
  it('of a hundred called enough no more than one runs out', () => {
    const { share, count: enough } = ranOut(calls)
    expect(enough).toBeGreaterThan(1000)
    expect(share).toBeLessThan(0.01 + 3 * Math.sqrt(0.0099 / enough))
  })

  it('calls at one half are wrong a third as often as the hand method’s', () => {
    const byHand = shareOf(calls, ({ handSaysYes, finished }) => handSaysYes !== finished)
    expect(byHand).toBeGreaterThan(0.1)
    const { value, error } = wrongOverAThird(calls)
    expect(error).toBeLessThan(0.015)
    expect(value).toBeLessThan(3 * error)
  })
})

describe('in the five worlds broader than believed taken together', () => {
  it('chances are right', () => {
    expect(misfit(runs.slice(1))).toBeLessThan(limit)
  })

  it('they would not be, were the spreads left as guessed', { timeout: 240_000 }, () => {
    expect(misfit(run(broader, { learns: false }))).toBeGreaterThan(2 * limit)
  })

  it('nor, were those learnt not doubted', { timeout: 240_000 }, () => {
    expect(misfit(run(broader, { doubts: false }))).toBeGreaterThan(limit)
  })
})
