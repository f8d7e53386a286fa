import { toldWork, type WorkBelief } from '../../src/estimate/index.ts'
import type { MatchCopy, MatchPrinter, MatchReel, MatchSlate } from '../../src/match/index.ts'
import { type Measured, measured, millimetres } from '../../src/units/index.ts'

/** A printer that feeds exactly what is asked and prints a reel to its last millimetre. */
export const exactPrinter = (id: string, more: Partial<MatchPrinter> = {}): MatchPrinter => ({
  id,
  tail_mm: measured(millimetres(0)),
  change_mm: measured(0),
  ...more,
})

/** What may be told beside the net. */
interface ToldParts {
  /** g/m */
  readonly linearDensity?: Measured
  readonly feed?: Measured
  /** mm */
  readonly start?: Measured
  readonly ownFeed?: number
}

/** What is told of a reel and the printers it may feed: exact but for what is given. */
export const toldBelief = (
  net: Measured,
  printers: readonly string[],
  more: ToldParts = {},
): WorkBelief => {
  const { linearDensity = measured(1), feed = measured(1), start = measured(0), ownFeed = 0 } = more
  return toldWork(
    {
      joint: {
        names: ['net', 'linear'],
        mean: Float64Array.of(net.value, linearDensity.value),
        covariance: Float64Array.of(net.u ** 2, 0, 0, linearDensity.u ** 2),
      },
      net: { terms: { net: 1 } },
      linearDensity: { terms: { linear: 1 } },
    },
    Object.fromEntries(
      printers.map((id) => [
        id,
        { feedFactor: feed, startAllowance: start, feedOfOneDraw: ownFeed, startOfOneDraw: 0 },
      ]),
    ),
  )
}

/** A reel of so many grams at 1 g/m on the printers `a` and `b`. */
export const reelOf = (
  id: string,
  net: Measured | number,
  more: Partial<MatchReel> = {},
): MatchReel => ({
  id,
  belief: toldBelief(typeof net === 'number' ? measured(net) : net, ['a', 'b']),
  sealed: false,
  ...more,
})

/** A copy of one tool that takes so many grams of a reel of 1 g/m. */
export const copyOf = (
  id: string,
  grams: number,
  fits: readonly string[],
  more: Partial<MatchCopy> = {},
): MatchCopy => ({
  id,
  tasks: [{ tool: 0, draw: [{ weight: 1, peak_mm: 1000 * grams }], fits }],
  printers: ['a'],
  ...more,
})

/** A draw in equal layers. */
export const layered = (grams: number, layers: number) => ({
  weight: 1,
  peak_mm: 1000 * grams,
  layerEnd_mm: Float64Array.from({ length: layers }, (_, i) => (1000 * grams * (i + 1)) / layers),
})

export const slateOf = (
  copies: readonly MatchCopy[],
  reels: readonly MatchReel[],
  more: Partial<MatchSlate> = {},
): MatchSlate => ({ copies, reels, printers: [exactPrinter('a'), exactPrinter('b')], ...more })
