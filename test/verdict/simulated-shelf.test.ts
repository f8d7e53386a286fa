import { describe, expect, it } from 'vitest'
import { defaultShelfPriors } from '../../src/estimate/index.ts'
import { shelfWorlds } from './shelf-worlds.ts'
import { type BenchOptions, simulateShelves } from './simulated-shelf.ts'
import { priorsAsWideAs } from './world-spreads.ts'

const [asBelieved, , , , restless] = shelfWorlds

describe('two estimates on benches of one seed', () => {
  it('meet the same benches, though one weighs again more often', () => {
    const benches = 6
    const outcomes = (options: BenchOptions) => {
      const { calls, tally } = simulateShelves(restless!, benches, 5, options)
      const each = Array.from({ length: benches }, (_, bench) =>
        calls.filter((call) => call.bench === bench).map(({ finished }) => finished),
      )
      return { each, tally }
    }
    const guessed = outcomes({ learns: false })
    const known = outcomes({ knowsSpreads: true })
    expect(guessed.tally.flagged).toBeGreaterThan(2 * known.tally.flagged)
    // Where a reel is not asked about, because its readings never agreed, there are fewer prints.
    const alike = guessed.each.flatMap((all, bench) =>
      all.length === known.each[bench]!.length ? bench : [],
    )
    expect(alike.length).toBeGreaterThan(2)
    for (const bench of alike) expect(known.each[bench]).toEqual(guessed.each[bench])
  })
})

describe('priors as wide as a world', () => {
  it('are the priors themselves where everything is as believed', () => {
    const { unknownTare, densityOverTable, scaleOverStated, ...others } = priorsAsWideAs(
      asBelieved!,
    )
    const priors = defaultShelfPriors
    expect(unknownTare[3]!.tare.u / 60).toBeCloseTo(1, 1)
    expect(densityOverTable.value).toBeCloseTo(1, 1)
    expect(scaleOverStated.value).toBeCloseTo(1, 1)
    for (const name of [
      'carrierOfOneMake',
      'overfill',
      'overfillOfOneMake',
      'diameterOffset',
      'reelAboutMake',
      'feedFactor',
      'feedOfOneDraw',
      'startAllowance',
      'startOfOneDraw',
    ] as const) {
      expect(others[name].u / priors[name].u, name).toBeCloseTo(1, 1)
      expect(others[name].value).toBe(priors[name].value)
    }
  })

  it('have the spread of a uniform error where errors are uniform', () => {
    const { carrierOfOneMake, feedOfOneDraw } = priorsAsWideAs(shelfWorlds[1]!)
    expect(carrierOfOneMake.u).toBeCloseTo(12 / Math.sqrt(3), 0)
    expect(feedOfOneDraw.u).toBeCloseTo(0.01 / Math.sqrt(3), 4)
  })
})
